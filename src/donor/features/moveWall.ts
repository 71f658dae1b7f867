import type { ManifoldToplevel } from '../../solid/kernel.ts';
import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { axisFrame } from './axisFrame.ts';
import { facetsOf } from './facetsOf.ts';
import type { LocatedWall } from './locateWall.ts';
import { relayFace } from './relayFace.ts';
import type { Surface } from './surfaceOf.ts';

/** Rings of a chamfer or fillet that are carried along at most, and how far they may lie from the wall, in radii. */
const MOST_RINGS = 64;
const WIDEST_RING = 1.6;
/** Faces less steep to the axis than this, as a sine, are too steep to slide a rim along. */
const LEAST_SLOPE = 0.15;
/** Normals that agree to this make one plane. */
const ONE_PLANE = 1e-3;
/** A surface around the axis faces sideways by no more than this, as a sine. */
const SIDEWAYS = 0.3;

/** The mesh with the wall's vertices moved away from its axis by the factor `by`, rims staying in the flat faces they lie in;
 *  chamfers and fillets at its rims are carried along with the width they have. Every other vertex is untouched, and so are the triangles but for
 *  faces at the rims that have to be laid anew between their vertices.
 *  Undefined where that cannot be: rims in curved faces or in several, or outlines of faces that would cross. */
export function moveWall(
  kernel: ManifoldToplevel,
  surface: Surface,
  wall: LocatedWall,
  by: number,
): DonorMesh | undefined {
  const { mesh, normals, areas, heights, slim, diagonal } = surface;
  const { positions: p, triangles } = mesh;
  const frame = axisFrame(wall.cylinder);
  const { radius } = wall.cylinder;
  const near = 1e-5 * diagonal;
  const at = (v: number): Vec3 => frame.local(p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!);
  const facing = (t: number): Vec3 => frame.turned(normals[3 * t]!, normals[3 * t + 1]!, normals[3 * t + 2]!);

  const fan = fansOf(triangles, p.length / 3);
  const carried = new Uint8Array(areas.length);
  for (const t of wall.triangles) carried[t] = 1;
  const onWall = new Set<number>();
  for (const t of wall.triangles) for (let k = 0; k < 3; k++) onWall.add(triangles[3 * t + k]!);

  // The normal of a face is that of its largest triangle: slivers between vertices on one line have none to speak of.
  const facet = facetsOf(surface);
  const largest = new Map<number, number>();
  facet.forEach((f, t) => {
    if (areas[t]! > areas[largest.get(f) ?? f]!) largest.set(f, t);
  });
  /** Planes of the faces around a vertex that stay. */
  const planesAt = (v: number): Vec3[] => {
    const planes: Vec3[] = [];
    for (const t of fan(v)) {
      if (carried[t]) continue;
      const face = largest.get(facet[t]!) ?? facet[t]!;
      if (heights[face]! < slim) continue;
      const n = facing(face);
      if (!planes.some((m) => Math.hypot(m[0] - n[0], m[1] - n[1], m[2] - n[2]) < ONE_PLANE)) planes.push(n);
    }
    return planes;
  };
  const slidesAlong = (planes: readonly Vec3[]): boolean =>
    planes.length === 0 || (planes.length === 1 && Math.abs(planes[0]![2]) > LEAST_SLOPE);

  const moving = new Set(onWall);
  let ring: Set<number> = onWall;
  for (let round = 0; ring.size > 0; round++) {
    if (round > MOST_RINGS) return undefined;
    // All of a ring is judged before any of it is carried: a chamfer comes whole or not at all.
    const stuck = [...ring].filter((v) => !slidesAlong(planesAt(v)));
    const next = new Set<number>();
    for (const v of stuck) {
      for (const t of fan(v)) {
        if (carried[t]) continue;
        if (!isAround(t)) return undefined;
        carried[t] = 1;
        for (let k = 0; k < 3; k++) {
          const corner = triangles[3 * t + k]!;
          if (!moving.has(corner)) next.add(corner);
          moving.add(corner);
        }
      }
    }
    ring = next;
  }

  const moved = p.slice();
  for (const v of moving) {
    const [u, w, s] = at(v);
    const rho = Math.hypot(u, w);
    if (rho === 0) continue;
    // The wall's own points keep their share, so that facets stay facets; what is carried goes as far as the wall does,
    // less near the axis, where a floor ends in a point.
    const shift = onWall.has(v) ? (by - 1) * rho : (by - 1) * radius * Math.min(1, (2 * rho) / radius);
    const [n] = planesAt(v);
    const along = n === undefined ? 0 : (-shift * (u * n[0] + w * n[1])) / rho / n[2];
    moved.set(frame.world(u * (1 + shift / rho), w * (1 + shift / rho), s + along), 3 * v);
  }
  const over = turnedOver();
  if (over.length === 0) return { positions: moved, triangles };
  return withFacesRelaid(over);

  /** Whether a triangle belongs to a chamfer or fillet beyond an end of the wall. */
  function isAround(t: number): boolean {
    const n = facing(t);
    let [x, y] = [0, 0];
    for (let k = 0; k < 3; k++) {
      const [u, w, s] = at(triangles[3 * t + k]!);
      if (Math.hypot(u, w) > WIDEST_RING * radius) return false;
      if (s > wall.from + near && s < wall.to - near) return false;
      if (s < wall.from - radius || s > wall.to + radius) return false;
      x += u / 3;
      y += w / 3;
    }
    return Math.abs(n[0] * y - n[1] * x) <= SIDEWAYS * Math.hypot(x, y);
  }

  /** Triangles that no longer face as they did. */
  function turnedOver(): number[] {
    const found: number[] = [];
    for (const v of moving) {
      for (const t of fan(v)) {
        if (areas[t] === 0) continue;
        const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
        const q = moved;
        const [ux, uy, uz] = [q[b]! - q[a]!, q[b + 1]! - q[a + 1]!, q[b + 2]! - q[a + 2]!];
        const [vx, vy, vz] = [q[c]! - q[a]!, q[c + 1]! - q[a + 1]!, q[c + 2]! - q[a + 2]!];
        const same =
          (uy * vz - uz * vy) * normals[3 * t]! +
          (uz * vx - ux * vz) * normals[3 * t + 1]! +
          (ux * vy - uy * vx) * normals[3 * t + 2]!;
        // Twice the area as seen from where the triangle faced; what is left of it must be more than rounding.
        if (!(same > 1e-3 * Math.min(2 * areas[t]!, 1e-6 * diagonal * diagonal))) found.push(t);
      }
    }
    return found;
  }

  /** The moved mesh with the flat faces of the given triangles laid anew. */
  function withFacesRelaid(over: readonly number[]): DonorMesh | undefined {
    if (over.some((t) => carried[t])) return undefined;
    const members = new Map(over.map((t) => [facet[t]!, [] as number[]]));
    for (let t = 0; t < facet.length; t++) members.get(facet[t]!)?.push(t);
    const laid = triangles.slice();
    const gone: number[] = [];
    for (const face of members.values()) {
      const fresh = relayFace(kernel, surface, face, moved);
      if (fresh === undefined || fresh.length > 3 * face.length) return undefined;
      for (let i = 0; i < face.length; i++) {
        if (3 * i < fresh.length) laid.set(fresh.subarray(3 * i, 3 * i + 3), 3 * face[i]!);
        else gone.push(face[i]!);
      }
    }
    if (gone.length === 0) return { positions: moved, triangles: laid };
    // A vertex inside the face that shaped nothing is left out, and two triangles with it.
    const left = new Set(gone);
    return { positions: moved, triangles: laid.filter((_, h) => !left.has(Math.floor(h / 3))) };
  }
}

/** Triangles around each vertex. */
function fansOf(triangles: Uint32Array, vertices: number): (v: number) => Uint32Array {
  const start = new Uint32Array(vertices + 1);
  for (const v of triangles) start[v + 1]!++;
  for (let v = 0; v < vertices; v++) start[v + 1]! += start[v]!;
  const fill = start.slice();
  const list = new Uint32Array(triangles.length);
  triangles.forEach((v, h) => {
    list[fill[v]!++] = Math.floor(h / 3);
  });
  return (v) => list.subarray(start[v]!, start[v + 1]!);
}
