import type { Manifold, Scope } from '../solid/kernel.ts';
import { realise } from '../solid/realise.ts';
import type { Shape } from '../solid/shape.ts';
import { shapeContent } from '../solid/shapeContent.ts';
import type { Remembered } from './remembered.ts';

/** What a triangle of a solid takes in wasm memory with all that is built up around it, bytes: about what `tests/bench/memory.ts` sees. */
const PER_TRIANGLE = 400;

/** What a solid takes in wasm memory, bytes, roughly. */
export const bytesOf = (solid: Manifold): number => 1024 + PER_TRIANGLE * solid.numTri();

/** `realise`, once for every content of a shape. */
export const realisedOnce = (known: Remembered, scope: Scope, shape: Shape): Manifold =>
  known.held(scope, 'realised', shapeContent(shape), (own) => realise(own, shape), bytesOf);
