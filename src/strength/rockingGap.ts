import type { Vec2 } from '../solid/vector.ts';
import type { CentreOfGravity } from './centreOfGravity.ts';
import { demand } from './demand.ts';
import { nearestEdge } from './supportPolygon.ts';
import type { Triple } from './threeFeet.ts';
import { threeFeetShares } from './threeFeet.ts';
import { triples } from './worstStance.ts';

export interface Stance {
  /** The three feet that carry. */
  readonly carrying: Triple<number>;
  /** Room between each foot and the desk, mm. */
  readonly gaps: readonly number[];
}

export interface Rocking {
  /** Largest room below a foot over which the machine can swing, mm; 0 on three feet. */
  readonly gap: number;
  /** That foot; null when none hangs. */
  readonly foot: number | null;
  /** Every way to stand that the centre of gravity, with its doubt, allows. */
  readonly stances: readonly Stance[];
}

/** A gap from which rocking is felt and heard, mm; common practice, no source. */
export const NOTICED_GAP = 0.2;

/** How far a machine with feet of uneven heights rocks on a flat, stiff desk.
 *
 *  It stands on three feet that hold its centre of gravity with all others at or above the desk. The gap is the height of a foot
 *  that hangs outside those three: the machine swings over their edge until it lands. A short foot amid them hangs but does not rock.
 *  `heights` in mm, how far each foot stands out below the machine, as they are under load. Throws `RangeError` when the
 *  counts differ, the centre lies outside, and as `supportPolygon`.
 *  @example rockingGap([[0, 0], [30, 0], [30, 20], [0, 20]], [6, 6, 6, 5.7], { at: [16, 9], doubt: 0 }).gap // => 0.3 */
export function rockingGap(
  feet: readonly Readonly<Vec2>[],
  heights: readonly number[],
  centre: CentreOfGravity,
): Rocking {
  const { at, doubt } = centre;
  demand('rocking', 'heights', heights.length, heights.length === feet.length, `for all ${feet.length} feet`);
  for (const h of heights)
    demand('rocking', 'heights', h, Number.isFinite(h), 'that are finite numbers of mm');
  demand('rocking', 'doubt', doubt, doubt >= 0 && doubt < Infinity, '0 mm or above');
  const { inside } = nearestEdge(feet, at);
  demand(
    'rocking',
    'centre of gravity',
    inside,
    inside >= -1e-9,
    '0 mm or more inside the outline of the feet',
  );
  const reach = Math.max(...feet.map((p) => Math.hypot(p[0] - at[0], p[1] - at[1])));
  const even = 1e-9 * (1 + Math.max(...heights) - Math.min(...heights));
  const stances: Stance[] = [];
  let [gap, foot]: [number, number | null] = [0, null];
  for (const carrying of triples(feet.length)) {
    const corners = carrying.map((i) => feet[i]!) as [Readonly<Vec2>, Readonly<Vec2>, Readonly<Vec2>];
    if (threeFeetShares(corners, at) === null) continue;
    if (nearestEdge(corners, at).inside < -doubt - 1e-9 * reach) continue;
    // Shares of a point among three feet also say how high the plane through their ends is there.
    const places = feet.map((p) => threeFeetShares(corners, p)!);
    const gaps = places.map(
      (s, i) =>
        s[0] * heights[carrying[0]]! +
        s[1] * heights[carrying[1]]! +
        s[2] * heights[carrying[2]]! -
        heights[i]!,
    );
    if (gaps.some((g) => g < -even)) continue;
    stances.push({ carrying, gaps: gaps.map((g) => Math.max(0, g)) });
    for (const [i, g] of gaps.entries()) {
      if (Math.min(...places[i]!) < -1e-9 && g > gap + even) [gap, foot] = [g, i];
    }
  }
  return { gap, foot, stances };
}
