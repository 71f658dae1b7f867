import type { Manifold } from '../solid/kernel.ts';
import { meshOf, vertexAt } from '../solid/mesh.ts';
import { identity, inverse, place, turn } from '../solid/placement.ts';
import { add, cross, dot, lengthOf, subtract, times, type Vec3 } from '../solid/vector.ts';
import type { CheckContext, PlannedInterface } from './context.ts';

/** How far from its place as drawn a face of the print or of the machine is looked for, mm. */
const REACH = 0.6;
/** Faces within 8 degrees of square to the seat rest on it. */
const SQUARE = 0.99;
/** How many of the largest resting triangles are probed. */
const PROBED = 16;

/** Shift that brings a printed part to rest in the machine, mm, frame of the part: `drawn` and `printed` are solids in
 *  that frame.
 *
 *  Along each seat: where the drawn part faces the seat and the two lie within 0.6 mm of each other, straight lines
 *  along the seat find how far the print stands past the host's face; the part goes back by the most of it. Lines,
 *  and not the box around the overlap, because a press fit beside the seat overlaps over its whole length.
 *  Across it: posts and bores whose axis runs along the seat and whose host stands still centre themselves, so that
 *  shrink and whole layers move the body of the part and not its post. Without a seat nothing moves. */
export function seatingShift(context: CheckContext, drawn: Manifold, printed: Manifold): Vec3 {
  let shift: Vec3 = [0, 0, 0];
  for (const { part, solid } of context.hosts) {
    if (part.seat === undefined) continue;
    const rest = context.poses[0]?.placements[part.id] ?? identity;
    const proud = standsProud(drawn, printed, solid, part.seat, rest);
    shift = subtract(shift, times(part.seat, Math.max(0, proud)));
    const guides = centring(context, part.seat);
    for (const guide of guides) {
      const alone = guides.every((other) => other === guide || groupOf(other) !== groupOf(guide));
      shift = subtract(shift, offCentre(printed, guide, alone));
    }
  }
  return shift;
}

/** How far the print stands past the host at its highest place on the seat, mm; negative where it stays short of it. */
function standsProud(
  drawn: Manifold,
  printed: Manifold,
  host: Manifold,
  seat: Readonly<Vec3>,
  rest: CheckContext['onBed'],
): number {
  let most = Number.NEGATIVE_INFINITY;
  // The ray is taken to where the host was built rather than the host to the ray: that would copy the solid.
  const back = inverse(rest);
  const into = turn(back, seat);
  for (const p of restingPoints(drawn, seat)) {
    const face = nearestFace(host, place(back, p), into, -1);
    const print = face === null ? null : nearestFace(printed, p, [...seat], 1);
    if (face !== null && print !== null) most = Math.max(most, print - face);
  }
  return most === Number.NEGATIVE_INFINITY ? 0 : most;
}

/** Points on the largest triangles that face the seat: the middle of each and, a little inside, its corners. */
function restingPoints(drawn: Manifold, seat: Readonly<Vec3>): Vec3[] {
  const mesh = meshOf(drawn);
  const facing: { readonly area: number; readonly points: Vec3[] }[] = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => vertexAt(mesh, mesh.triangles[t + k]!));
    const [a, b, c] = corners as [Vec3, Vec3, Vec3];
    const across = cross(subtract(b, a), subtract(c, a));
    const twice = lengthOf(across);
    if (!(dot(across, seat) > SQUARE * twice)) continue;
    const centre = times(add(add(a, b), c), 1 / 3);
    const inner = corners.map((corner) => add(times(centre, 0.2), times(corner, 0.8)));
    facing.push({ area: twice, points: [centre, ...inner] });
  }
  return facing
    .sort((s, t) => t.area - s.area)
    .slice(0, PROBED)
    .flatMap(({ points }) => points);
}

/** Distance along `u` from `p` to the nearest face of a solid that looks along `u` (`sense` 1) or against it (-1),
 *  mm; null when there is none within reach. */
function nearestFace(solid: Manifold, p: Vec3, u: Vec3, sense: 1 | -1): number | null {
  let nearest: number | null = null;
  const hits = solid.rayCast(subtract(p, times(u, REACH)), add(p, times(u, REACH)));
  for (const { distance, normal } of hits) {
    const s = (2 * distance - 1) * REACH;
    if (sense * dot(normal, u) > 0.5 && (nearest === null || Math.abs(s) < Math.abs(nearest))) nearest = s;
  }
  return nearest;
}

/** Interfaces that hold the part across the seat. */
function centring({ hosts, poses, interfaces }: CheckContext, seat: Readonly<Vec3>): PlannedInterface[] {
  const still = hosts.filter(({ part }) =>
    poses.every(({ placements }) => placements[part.id] === undefined),
  );
  const met = new Set(still.flatMap(({ part }) => part.meets ?? []));
  return interfaces.filter(
    ({ id, kind, axis }) => kind !== 'step' && met.has(id) && Math.abs(dot(axis, seat)) > SQUARE,
  );
}

const groupOf = ({ id }: PlannedInterface): string => id.split('.')[0]!;

/** How far the middle of a printed feature lies off its middle as drawn, mm: along its width, and across it too when
 *  no other interface of its group says how wide it is there (a round post). */
function offCentre(
  printed: Manifold,
  { kind, at, axis, across, predicted }: PlannedInterface,
  alone: boolean,
): Vec3 {
  const round = alone && (kind === 'post' || kind === 'bore');
  const ways = round ? [across, cross(axis, across)] : [across];
  const reach = predicted / 2 + REACH;
  return ways.reduce<Vec3>(
    (sum, way) => {
      const [there, back] = [1, -1].map((sense) => {
        const far = add(at, times(way, sense * reach));
        return printed.rayCast(at, far)[0]?.distance;
      });
      // A feature that is not there to be found, or is interrupted at its middle, centres nothing.
      return there === undefined || back === undefined
        ? sum
        : add(sum, times(way, ((there - back) * reach) / 2));
    },
    [0, 0, 0],
  );
}
