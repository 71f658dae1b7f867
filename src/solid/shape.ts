import type { Geom3 } from '@jscad/modeling/src/geometries/geom3/index.js';
import type { Placement, Vec3 } from './vector.ts';

/** A closed surface that was not drawn here, such as a model from a file; mm. */
export interface ClosedMesh {
  /** x, y, z of each vertex. */
  readonly positions: Float64Array;
  /** Three vertex numbers a triangle, counter-clockwise from outside. */
  readonly triangles: Uint32Array;
}

/** A solid as a description: convex or extruded leaves made by JSCAD, meshes from files, joined by Manifold when realised.
 *  A description holds no wasm memory, so it may be kept, copied and sent about freely. */
export type Shape =
  | { readonly kind: 'leaf'; readonly geometry: Geom3 }
  | { readonly kind: 'mesh'; readonly mesh: ClosedMesh }
  | { readonly kind: 'union' | 'difference' | 'intersection'; readonly of: readonly Shape[] }
  | { readonly kind: 'placed'; readonly of: Shape; readonly placement: Placement };

/** Everything in any of the shapes. Requires at least one. */
export const union = (...of: Shape[]): Shape => combine('union', of);
/** The first shape without the others. Requires at least one. */
export const difference = (...of: Shape[]): Shape => combine('difference', of);
/** What all the shapes share. Requires at least one. */
export const intersection = (...of: Shape[]): Shape => combine('intersection', of);

function combine(kind: 'union' | 'difference' | 'intersection', of: Shape[]): Shape {
  const [first] = of;
  if (first === undefined) throw new RangeError(`${kind} requires at least 1 shape`);
  return of.length === 1 ? first : { kind, of };
}

/** A mesh as a shape. It is closed and faces outwards, or realising it fails. */
export const fromMesh = (mesh: ClosedMesh): Shape => ({ kind: 'mesh', mesh });

/** The shape moved by `by`, mm. */
export const moved = (of: Shape, by: Vec3): Shape => ({
  kind: 'placed',
  of,
  placement: { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: by },
});

/** The shape turned and moved rigidly. */
export const placed = (of: Shape, placement: Placement): Shape => ({ kind: 'placed', of, placement });
