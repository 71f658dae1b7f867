import { roundFeatures } from '../donor/features/roundFeatures.ts';
import {
  type PartDrawingInput,
  type Projection,
  partDrawing,
  type SizeAsked,
} from '../output/partDrawing/index.ts';
import type { Mesh } from '../solid/mesh.ts';
import type { MakeResult } from './result.ts';
import type { ScenePart } from './scene.ts';
import type { Job } from './schema.ts';

/** What the sheets say besides what the result tells. */
export interface DrawingOptions {
  readonly author?: Job['author'];
  readonly licence?: Job['licence'];
  /** First angle unless asked otherwise. */
  readonly projection?: Projection | undefined;
}

/** The drawing of one part of a job. */
export interface MadeDrawing {
  /** Of the part; empty when the job makes one. */
  readonly id: string;
  /** SVG text. */
  readonly svg: string;
}

/** The drawings of a job, a sheet a part. Throws `RangeError` when a part does not fit A3 at 1:100. */
export const partDrawings = (
  result: Pick<MakeResult, 'job'>,
  scene: readonly ScenePart[],
  options: DrawingOptions = {},
): readonly MadeDrawing[] =>
  drawingInput(result, scene, options).map((input, k) => ({ id: scene[k]!.id, svg: partDrawing(input) }));

/** What the sheets are drawn from, one a part: the part as it is meant to be, without the relief of its first layer, and the sizes
 *  that its print must have. */
export function drawingInput(
  result: Pick<MakeResult, 'job'>,
  scene: readonly ScenePart[],
  { author, licence, projection = 'first' }: DrawingOptions = {},
): readonly PartDrawingInput[] {
  const { title, family, quantity, material, printer, calibrated, hash } = result.job;
  return scene.map(({ name, unrelieved: mesh, interfaces }, k) => ({
    mesh,
    sizes: interfaces.map(sizeAsked),
    rounds: roundsOf(mesh),
    projection,
    fields: {
      ...{ title, quantity, material, printer, calibrated, hash },
      part: name === '' ? family : `${family}, ${name}`,
      author: author ?? null,
      licence: licence ?? null,
      sheet: [k + 1, scene.length],
    },
  }));
}

/** Limits of the print: what is hollow is measured less the machine, what is solid the machine less it. */
function sizeAsked({ window: [lo, hi], ...one }: ScenePart['interfaces'][number]): SizeAsked {
  const { id, name, kind, at, axis, across, length, drawn, predicted, host, round } = one;
  const solid = kind === 'post' || kind === 'rib';
  const limit = (clearance: number): number | null =>
    Number.isFinite(clearance) ? (solid ? host - clearance : host + clearance) : null;
  return {
    ...{ id, name, kind, at, axis, across, length, drawn },
    // Round ends of a slot are not what is measured along it.
    diameter: kind !== 'step' && round !== null && Math.abs(round - drawn) < 0.01 * drawn,
    nominal: predicted,
    least: limit(solid ? hi : lo),
    most: limit(solid ? lo : hi),
  };
}

/** Meshes with more triangles than this are searched for nothing round: the drawing has its centre lines from what must fit. */
const MOST_SEARCHED = 60_000;

function roundsOf({ positions, triangles }: Mesh): PartDrawingInput['rounds'] {
  if (triangles.length / 3 > MOST_SEARCHED) return [];
  const { bores, posts } = roundFeatures({ positions: Float64Array.from(positions), triangles });
  return [
    ...bores.map(({ axis, at, diameter, depth }) => ({ axis, at, diameter, length: depth })),
    ...posts.map(({ axis, at, diameter, length }) => ({ axis, at, diameter, length })),
  ];
}
