import type { Manifold, Scope } from '../../solid/kernel.ts';
import { type AxisFrame, extentOf } from '../spans/axisFrame.ts';
import { sectionAreas } from '../spans/section.ts';
import type { Cut } from './cutAndRejoin.ts';
import { type NamedFeature, stretchOf } from './featureChange.ts';
import { framedSolid } from './framedSolid.ts';

/** A cut with what it leaves behind. */
export interface LikelyCut extends Cut {
  /** Of what lies in one of the two sections that are joined and not in the other. For a slab put in, both are the same
   *  section: 0, and `lean` says how much of a kink it leaves. */
  readonly mismatchArea: number;
  /** How far the outline moves sideways, on average, for each unit along the axis at the cut: 0 for plain walls. */
  readonly lean: number;
  /** Area of the larger of the two sections. */
  readonly area: number;
  /** Named features that the slab taken out cuts into or takes away, or that a slab put in cuts in two. */
  readonly cutsInto: readonly string[];
}

/** Levels tried, and those of them laid over each other exactly. */
const LEVELS = 400;
const EXACT = 60;

/** This share of the extent stays on both sides of a cut. */
const END = 0.02;

/** The best cut for a change, and the best one that leaves all named features whole if that is another. Areas
 *  alone bound the mismatch from below, so candidates are looked at in the order of that bound until none
 *  can be better. In a donor with a mirror plane the cut that takes the middle out joins mirror images. */
export function likelyCuts(
  scope: Scope,
  triangles: Uint32Array,
  frame: AxisFrame,
  by: number,
  features: readonly NamedFeature[],
  mirror: number | null,
): readonly LikelyCut[] {
  const [low, high] = extentOf(frame);
  const gone = Math.max(0, -by);
  const from = low + END * (high - low);
  const to = high - gone - END * (high - low);
  if (!(to > from)) return [];
  const step = (high - low) / LEVELS;
  const levels = Array.from({ length: LEVELS }, (_, k) => from + ((to - from) * (k + 0.5)) / LEVELS);
  if (mirror !== null) levels.push(mirror - gone / 2);
  // A slab put in meets the same section twice; what tells levels apart is how fast the section changes there.
  const apart = by < 0 ? gone : step / 2;
  const [lower, upper] = [by < 0 ? 0 : -apart / 2, by < 0 ? gone : apart / 2];
  const areas = sectionAreas(
    triangles,
    frame,
    levels.flatMap((level) => [level + lower, level + upper]),
  );
  const stretches = features.map((feature) => ({ id: feature.id, stretch: stretchOf(feature, frame.axis) }));
  const candidates = levels
    .map((at, k) => ({
      at,
      area: Math.max(areas[2 * k]!, areas[2 * k + 1]!),
      least: Math.abs(areas[2 * k]! - areas[2 * k + 1]!),
      cutsInto: stretches
        .filter(({ stretch }) => stretch[0] < at + gone && stretch[1] > at)
        .map(({ id }) => id),
    }))
    .filter((_, k) => areas[2 * k]! > 0 && areas[2 * k + 1]! > 0)
    .sort((a, b) => a.least - b.least || a.at - b.at);
  const solid = framedSolid(scope, triangles, frame);
  const best = (some: typeof candidates): LikelyCut | undefined => {
    let found: LikelyCut | undefined;
    let difference = Infinity;
    for (const { at, area, least, cutsInto } of some.slice(0, EXACT)) {
      if (least >= difference) break;
      const { between, around } = laidOver(scope, solid, at + lower, at + upper);
      if (between >= difference) continue;
      difference = between;
      found = {
        ...{ at, by, area, cutsInto },
        mismatchArea: by < 0 ? between : 0,
        lean:
          by < 0
            ? laidOver(scope, solid, at - step / 4, at + step / 4).between / (around * (step / 2))
            : between / (around * apart),
      };
    }
    return found;
  };
  const [any, whole] = [best(candidates), best(candidates.filter(({ cutsInto }) => cutsInto.length === 0))];
  return [any, whole].filter(
    (cut, k, all) => cut !== undefined && all.findIndex((o) => o?.at === cut.at) === k,
  ) as LikelyCut[];
}

/** The area that lies in only one of two sections, and the length of the first one's outline. */
function laidOver(scope: Scope, solid: Manifold, a: number, b: number): { between: number; around: number } {
  const [first, second] = [scope.keep(solid.slice(a)), scope.keep(solid.slice(b))];
  const only = scope.keep(first.subtract(second)).area() + scope.keep(second.subtract(first)).area();
  let around = 0;
  for (const contour of first.toPolygons())
    contour.forEach(([x, y], k) => {
      const [p, q] = contour[(k + 1) % contour.length]!;
      around += Math.hypot(p - x, q - y);
    });
  return { between: only, around };
}
