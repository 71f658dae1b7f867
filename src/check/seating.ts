import type { Manifold } from '../solid/kernel.ts';
import { vertexAt } from '../solid/mesh.ts';
import { meshOf } from '../solid/meshOf.ts';
import { identity, inverse, place, turn } from '../solid/placement.ts';
import { add, cross, dot, lengthOf, subtract, times, type Vec3 } from '../solid/vector.ts';
import type { CheckContext, PlannedInterface } from './context.ts';

/** How far from its place as drawn a face of the print or of the machine is looked for, mm. */
const REACH = 0.6;
/** Faces within 8 degrees of square to the seat rest on it. */
const SQUARE = 0.99;
/** How many of the largest resting triangles are probed, and how many are looked at for them. */
const PROBED = 16;
const LOOKED_AT = 400;

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
    shift = subtract(shift, offCentre(printed, centring(context, part.seat)));
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
  let probed = 0;
  // The ray is taken to where the host was built rather than the host to the ray: that would copy the solid.
  const back = inverse(rest);
  const into = turn(back, seat);
  for (const points of restingPoints(drawn, seat)) {
    let met = false;
    for (const p of points) {
      const face = nearestFace(host, place(back, p), into, -1);
      const print = face === null ? null : nearestFace(printed, p, [...seat], 1);
      if (face === null || print === null) continue;
      met = true;
      most = Math.max(most, print - face);
    }
    // What faces the seat beside the host, as the inside of a cover does, tells nothing of how it rests.
    if (met && ++probed === PROBED) break;
  }
  return most === Number.NEGATIVE_INFINITY ? 0 : most;
}

/** Points on the triangles that face the seat, the largest first: the middle of each and, a little inside, its corners. */
function restingPoints(drawn: Manifold, seat: Readonly<Vec3>): Vec3[][] {
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
    .slice(0, LOOKED_AT)
    .map(({ points }) => points);
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
  const still = hosts.filter(
    ({ part }) => !part.loose && poses.every(({ placements }) => placements[part.id] === undefined),
  );
  const met = new Set(still.flatMap(({ part }) => part.meets ?? []));
  return interfaces.filter(
    ({ id, kind, axis }) => kind !== 'step' && met.has(id) && Math.abs(dot(axis, seat)) > SQUARE,
  );
}

const groupOf = ({ id }: PlannedInterface): string => id.split('.')[0]!;

/** How far the middles of printed features lie off their middles as drawn, mm. Several that are read the same way, as two
 *  plugs side by side or a plug and the arms on it, settle on the mean of what each would ask for. */
function offCentre(printed: Manifold, guides: readonly PlannedInterface[]): Vec3 {
  const ways: { readonly way: Vec3; readonly offs: number[] }[] = [];
  for (const guide of guides) {
    const alone = guides.every((other) => other === guide || groupOf(other) !== groupOf(guide));
    for (const { way, off } of middleOff(printed, guide, alone)) {
      const same = ways.find((one) => Math.abs(dot(one.way, way)) > SQUARE);
      if (same) same.offs.push(dot(same.way, way) < 0 ? -off : off);
      else ways.push({ way, offs: [off] });
    }
  }
  return ways.reduce<Vec3>(
    (sum, { way, offs }) => add(sum, times(way, offs.reduce((a, b) => a + b, 0) / offs.length)),
    [0, 0, 0],
  );
}

/** How far the middle of a printed feature lies off its middle as drawn, mm: along its width, and across it too when
 *  no other interface of its group says how wide it is there (a round post). */
function middleOff(
  printed: Manifold,
  { kind, at, axis, across, predicted }: PlannedInterface,
  alone: boolean,
): { way: Vec3; off: number }[] {
  const round = alone && (kind === 'post' || kind === 'bore');
  const ways = round ? [across, cross(axis, across)] : [across];
  const reach = predicted / 2 + REACH;
  const outwards = kind === 'post' || kind === 'rib' ? 1 : -1;
  return ways.flatMap((way) => {
    const [there, back] = [1, -1].map((sense) => {
      const far = add(at, times(way, sense * reach));
      // The feature's own face, and not that of a hollow inside it or of an arm before it.
      const faces = printed
        .rayCast(at, far)
        .filter(({ normal }) => outwards * sense * dot(normal, way) > 0.5)
        .map(({ distance }) => distance * reach - predicted / 2)
        .filter((off) => Math.abs(off) < REACH);
      return faces.length === 0 ? undefined : faces.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
    });
    // A feature that is not there to be found, or is interrupted at its middle, centres nothing.
    return there === undefined || back === undefined ? [] : [{ way, off: (there - back) / 2 }];
  });
}
