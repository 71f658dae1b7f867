import type { Lay } from '../family/family.ts';
import type { Interface } from '../family/interface.ts';
import type { Drawn } from '../family/values.ts';
import { isVertical, type Measurand } from '../printer/measurand.ts';
import { inverse, turn } from '../solid/placement.ts';
import { dot } from '../solid/vector.ts';

/** What is known of the height above the bed of each size that hangs on it, by interface. */
export type Heights = Readonly<
  Record<string, Pick<Measurand, 'lowerFace' | 'below' | 'underside' | 'lying'>>
>;

/** Nearer to the bed than this a face lies on it, mm. */
const ON_BED = 1e-6;

/** Level to rounding: the sine of the angle to the bed. */
const LEVEL = 1e-9;

/** Diameter of the round that an interface is the width of, when it lies level and is read level with the bed. */
function lyingRound({ kind, axis, across, hydraulic, round }: Interface, drawn: number, lay: Lay) {
  const level = [axis, across].every((v) => Math.abs(turn(lay.turn, v)[2]) < LEVEL);
  if (!level) return undefined;
  return round ?? (kind === 'bore' && hydraulic === undefined ? drawn : undefined);
}

/** Whether a size hangs on how high above the bed it lies. */
export const hangsOnHeight = (one: Interface, lay: Lay): boolean =>
  isVertical({ kind: one.kind, direction: turn(lay.turn, one.across) }) ||
  lyingRound(one, one.host, lay) !== undefined;

/** Heights at which the faces of sizes measured upwards lie, and the axes of rounds that lie level, with the part's
 *  lowest point on the bed. `bottom` is that point's coordinate along bed z in the frame of the part, mm.
 *
 *  Posts and ribs: their lower face, which looks down. Steps up to the axis of a hollow: the face they start from, which
 *  looks down too, and how far below the axis the hollow's floor lies; steps downwards are left open, for their lower
 *  end moves as they are drawn. Hollows need nothing: drawn in whole layers they print as high wherever they lie. */
export function heightsOf(interfaces: readonly Interface[], drawn: Drawn, lay: Lay, bottom: number): Heights {
  const up = turn(inverse(lay.turn), [0, 0, 1]);
  const known: Record<string, Heights[string]> = {};
  for (const one of interfaces) {
    const { id, kind, at, across, hollow } = one;
    const direction = turn(lay.turn, across);
    const size = drawn[id]!;
    const middle = dot(at, up) - bottom;
    const diameter = lyingRound(one, size, lay);
    if (diameter !== undefined) known[id] = { lying: { diameter, axis: middle } };
    if (!isVertical({ kind, direction })) continue;
    if (kind === 'post' || kind === 'rib')
      known[id] = { lowerFace: settled(middle - size / 2), underside: true };
    else if (kind === 'step' && direction[2] < 0)
      known[id] = {
        lowerFace: settled(middle - size),
        underside: true,
        ...(hollow !== undefined && { below: drawn[hollow]! / 2 }),
      };
  }
  return known;
}

const settled = (height: number): number => (Math.abs(height) < ON_BED ? 0 : height);

/** Heights this close count as the same, mm. */
const SAME = 1e-6;

/** Whether two sets say the same; a face on the bed is what is assumed of a post that is not mentioned. */
export function sameHeights(a: Heights, b: Heights): boolean {
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((id) => {
    const [one, other] = [a[id], b[id]];
    if (one === undefined || other === undefined) {
      const only = (one ?? other)!;
      return only.lowerFace === 0 && only.below === undefined;
    }
    return [
      [one.lowerFace, other.lowerFace],
      [one.below, other.below],
      [one.lying?.axis, other.lying?.axis],
      [one.lying?.diameter, other.lying?.diameter],
    ].every(([p = 0, q = 0]) => Math.abs(p - q) < SAME);
  });
}
