import type { Manifold, Scope } from '../solid/kernel.ts';
import type { Layer } from '../solid/layers.ts';
import { SolidProblem } from '../solid/realise.ts';
import type { Vec2 } from '../solid/vector.ts';
import { onHeightGrid } from './heightGrid.ts';
import { type Outline, outlinesOf } from './innerRegions.ts';
import { movedWalls, RIPPLE, type WallMoves } from './movedWalls.ts';
import { type PrintedRun, saggedSlabs } from './saggedSlabs.ts';
import type { PrinterProfile } from './types.ts';

/** What is expected off the printer, in the frame of the bed, from the layers of the drawn solid. mm.
 *
 *  In each layer the drawn section is scaled by `scale.x`, `scale.y` and leant by `skew`; then its outlines stand out by
 *  `outerGrowth` a side and the walls of its holes and pockets stand in by `boreShrink` + `boreCurvature` / (2 D) a
 *  side, D being their hydraulic diameter as drawn. Walls of the first layer stand `firstLayerSpread` further into every
 *  void. Heights are those of whole layers, times `scale.z`, and all above the first layer stands `firstLayerError`
 *  higher. What nothing holds from below hangs `levelSag` lower (`saggedSlabs`). For a round bore this is
 *  printed = drawn * scale - 2 * boreShrink - boreCurvature / D, as in `PrinterProfile`.
 *
 *  What stays where it was drawn: the middle of the part's box in x and y, the bed in z. A shrink then moves
 *  nothing by more than half the part's length times it.
 *
 *  Empty when no layer prints anything. Throws `SolidProblem` when the layers do not join to a solid.
 *  @example predictedPrint(scope, layersOf(scope, solid, 0.2, 0.2), profile).volume() */
export function predictedPrint(scope: Scope, layers: readonly Layer[], profile: PrinterProfile): Manifold {
  const runs = printedRuns(scope, layers, profile);
  const blocks = saggedSlabs(scope, runs, profile)
    .filter(({ low, high, section }) => high > low && !section.isEmpty())
    .map(({ low, high, section }) =>
      scope.keep(scope.keep(section.extrude(high - low)).translate(0, 0, low)),
    );
  const [only, ...others] = blocks;
  const joined = only && others.length === 0 ? only : scope.keep(scope.kernel.Manifold.union(blocks));
  const print = scope.keep(joined.simplify(RIPPLE));
  const status = print.status();
  if (status !== 'NoError') throw new SolidProblem(status, 'predicted print');
  return print;
}

/** The layers with their walls where they print, before anything sags. */
function printedRuns(scope: Scope, layers: readonly Layer[], profile: PrinterProfile): PrintedRun[] {
  const at = placeInPlane(middleOf(layers), profile);
  const outlines = new Map<Layer['section'], readonly Outline[]>();
  return runsOf(layers, profile.firstLayerSpread.value).map(({ first, bottom, top, layer }) => {
    let found = outlines.get(layer.section);
    if (found === undefined) {
      found = outlinesOf(scope, layer.contours);
      outlines.set(layer.section, found);
    }
    return {
      low: printedHeight(bottom, profile),
      high: printedHeight(top, profile),
      layer: layer.top - layer.bottom,
      section: movedWalls(scope, found, wallMoves(profile, first), at),
    };
  });
}

/** Where the boundary between two layers comes out. A first layer never comes out thinner than nothing. */
function printedHeight(z: number, { scale, firstLayerError }: PrinterProfile): number {
  return z === 0 ? 0 : Math.max(0, onHeightGrid(z * scale.z.value + firstLayerError.value));
}

/** How far the walls of one layer are expected to move. */
function wallMoves(profile: PrinterProfile, first: boolean): WallMoves {
  const spread = first ? profile.firstLayerSpread.value : 0;
  const [shrink, curvature] = [profile.boreShrink.value, profile.boreCurvature.value];
  return {
    outer: profile.outerGrowth.value + spread,
    inner: (diameter) => shrink + curvature / (2 * diameter) + spread,
  };
}

/** Layers that print alike, one on the other. */
interface Run {
  readonly first: boolean;
  readonly layer: Layer;
  readonly bottom: number;
  readonly top: number;
}

function runsOf(layers: readonly Layer[], spread: number): Run[] {
  const runs: Run[] = [];
  for (const layer of layers) {
    const below = runs.at(-1);
    const first = below === undefined;
    if (below && below.layer.section === layer.section && !(below.first && spread !== 0))
      runs[runs.length - 1] = { ...below, top: layer.top };
    else runs.push({ first, layer, bottom: layer.bottom, top: layer.top });
  }
  return runs;
}

/** Middle of the box around all sections, mm. */
function middleOf(layers: readonly Layer[]): Vec2 {
  const low: Vec2 = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: Vec2 = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { contours } of layers) {
    for (const contour of contours) {
      for (const [x, y] of contour) {
        low[0] = Math.min(low[0], x);
        low[1] = Math.min(low[1], y);
        high[0] = Math.max(high[0], x);
        high[1] = Math.max(high[1], y);
      }
    }
  }
  return [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
}

/** Where shrink and skew put a drawn point. */
const placeInPlane =
  ([x, y]: Vec2, { scale, skew }: PrinterProfile) =>
  (p: Vec2): Vec2 => [
    x + scale.x.value * (p[0] - x) + skew.value * (p[1] - y),
    y + scale.y.value * (p[1] - y),
  ];
