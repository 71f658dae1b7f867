import type { Vec2 } from '../solid/vector.ts';
import type { CentreOfGravity } from './centreOfGravity.ts';
import { demand } from './demand.ts';
import { nearestEdge } from './supportPolygon.ts';
import { threeFeetShares } from './threeFeet.ts';

/** What feet may have to carry, N, foot by foot. */
export interface FootLoads {
  readonly most: readonly number[];
  readonly least: readonly number[];
}

/** Largest and smallest load on each foot of a stiff machine on a stiff desk.
 *
 *  Four and more feet are statically indeterminate: a tenth of a millimetre decides which three of them carry. So every three that hold
 *  the centre of gravity are tried, and the worst is taken foot by foot; any other distribution is a mixture of these
 *  (the vertices of the polytope of balanced, pushing loads; Caratheodory). The doubt of the centre is added to each share's worst side,
 *  which for a large doubt is somewhat more than can happen. For three feet without doubt it is plain statics.
 *  `weight` in N, 0 or above. Throws `RangeError` when the centre lies outside the feet, and as `supportPolygon`.
 *  @example footLoads([[0, 0], [30, 0], [30, 20], [0, 20]], { at: [15, 10], doubt: 0 }, 40)
 *  // => { most: [20, 20, 20, 20], least: [0, 0, 0, 0] } */
export function footLoads(
  feet: readonly Readonly<Vec2>[],
  centre: CentreOfGravity,
  weight: number,
): FootLoads {
  const { at, doubt } = centre;
  demand('feet', 'weight', weight, weight >= 0 && weight < Infinity, '0 N or above');
  demand('feet', 'doubt', doubt, doubt >= 0 && doubt < Infinity, '0 mm or above');
  const { inside } = nearestEdge(feet, at);
  demand('feet', 'centre of gravity', inside, inside >= -1e-9, '0 mm or more inside the outline of the feet');
  const most = feet.map(() => 0);
  const least = feet.map(() => 1);
  for (const triple of triples(feet.length)) {
    const corners = triple.map((i) => feet[i]!) as [Readonly<Vec2>, Readonly<Vec2>, Readonly<Vec2>];
    const shares = threeFeetShares(corners, at);
    if (shares === null) continue;
    const swing = corners.map((_, k) => doubt * steepness(corners, k));
    if (shares.some((s, k) => s + swing[k]! < -1e-9)) continue;
    for (const i of feet.keys()) {
      const k = triple.indexOf(i);
      const [s, d] = k < 0 ? [0, 0] : [shares[k]!, swing[k]!];
      most[i] = Math.max(most[i]!, Math.min(1, s + d));
      least[i] = Math.min(least[i]!, Math.max(0, s - d));
    }
  }
  return { most: most.map((s) => s * weight), least: least.map((s) => s * weight) };
}

/** All choices of three of n, in order. */
export function* triples(n: number): Generator<[number, number, number]> {
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) for (let k = j + 1; k < n; k++) yield [i, j, k];
}

/** How fast the share of foot k changes as the centre moves straight away from the other two, 1/mm. */
function steepness(feet: readonly Readonly<Vec2>[], k: number): number {
  const [a, p, q] = [feet[k]!, feet[(k + 1) % 3]!, feet[(k + 2) % 3]!];
  const side = Math.hypot(q[0] - p[0], q[1] - p[1]);
  return side / Math.abs((q[0] - p[0]) * (a[1] - p[1]) - (q[1] - p[1]) * (a[0] - p[0]));
}
