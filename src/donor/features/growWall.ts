import { type Cylinder, fitCylinder } from './fitCylinder.ts';
import { liesOneWay } from './liesOneWay.ts';
import { SURE_BEND, type Surface } from './surfaceOf.ts';

/** Facets may turn by this much each, radians: eight to the turn, and a little for noise. */
export const WIDEST_FACET = (47 / 180) * Math.PI;
const COS_HALF_FACET = Math.cos(WIDEST_FACET / 2);
const SIN_HALF_FACET = Math.sin(WIDEST_FACET / 2);
/** Share of the radius by which a vertex may be off the round. */
const OUT_OF_ROUND = 1e-3;
/** The same as a share of the part's diagonal: what noise in the file does to a small bore. */
const OUT_OF_ROUND_OF_PART = 3e-6;
/** Facets run along the axis but for noise: their normals lean by no more than this out of the cross-section, as a sine. */
const LEAN = 0.005;
/** The same for triangles too slim to have a normal to speak of. */
const SLIM_LEAN = 0.7;
/** Triangles across one facet at most. */
const MOST_STEPS = 256;
/** Edges that differ in direction by less than this are along one axis, as a slope: what noise does to short ones. */
const PARALLEL = 0.1;
/** Times a surface is fitted and grown again at most. */
const MOST_ROUNDS = 6;

/** A stretch of round surface: the triangles that hang together and lie on one cylinder. */
export interface Growth {
  readonly cylinder: Cylinder;
  /** 1 where the surface bulges (a post), -1 where it is hollow (a bore). */
  readonly sense: 1 | -1;
  readonly triangles: Int32Array;
}

/** A wall has a tenth of the turn or more (`LEAST_COVER`); one that keeps to this from its first edge, either way, never
 *  comes to that: five degrees, as a cosine. */
const STRIP = Math.cos((5 / 180) * Math.PI);

/** How far a vertex may be off a cylinder. */
export const roundness = (surface: Surface, radius: number): number =>
  OUT_OF_ROUND * radius + OUT_OF_ROUND_OF_PART * surface.diagonal;

/** Grows round surfaces from their straight edges: between two facets of a cylinder runs an edge along its axis, and
 *  that edge with the next ones over both facets gives axis and circle at once. */
export class WallGrower {
  readonly #surface: Surface;
  readonly #seen: Int32Array;
  readonly #gathered: Int32Array;
  readonly #queue: Int32Array;
  #points = new Float64Array(3 * 256);
  #stamp = 0;

  constructor(surface: Surface) {
    this.#surface = surface;
    const count = surface.mesh.triangles.length / 3;
    this.#seen = new Int32Array(count).fill(-1);
    this.#gathered = new Int32Array(surface.mesh.positions.length / 3).fill(-1);
    this.#queue = new Int32Array(count);
  }

  /** The round surface around half-edge h, or undefined where there is none. Triangles with an owner at or above 0 are left alone. */
  grow(h: number, owner: Int32Array): Growth | undefined {
    const { mates, bends } = this.#surface;
    let cylinder = this.#guess(h);
    if (cylinder === undefined) return undefined;
    const sense = bends[h]! > 0 ? 1 : -1;
    const seeds = [Math.floor(h / 3), Math.floor(mates[h]! / 3)] as const;
    // The first guess rests on three points: go a little way, fit again, go twice as far.
    for (let limit = 8; ; limit *= 2) {
      const count = this.#flood(seeds, cylinder, sense, owner, limit);
      // Two facets of a wall have two triangles each; most edges of other surfaces stop here.
      if (count < 4) return undefined;
      const fitted = fitCylinder(this.#shapingPoints(count), cylinder);
      if (fitted === undefined || fitted.radius > this.#surface.diagonal) return undefined;
      cylinder = fitted;
      if (count < limit) break;
    }
    // What was fitted on a part may just miss the rest.
    let count = 0;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const reached = this.#flood(seeds, cylinder, sense, owner, Infinity);
      if (reached < 3) return undefined;
      if (reached === count) break;
      count = reached;
      const points = this.#shapingPoints(count);
      // Fitted and grown again it is still a strip of a smooth surface. On fine meshes nearly all come to this.
      if (round === 0 && liesOneWay(points, cylinder, STRIP)) break;
      const fitted = fitCylinder(points, cylinder);
      if (fitted === undefined || fitted.radius > this.#surface.diagonal) return undefined;
      cylinder = fitted;
    }
    return { cylinder, sense, triangles: this.#queue.slice(0, count) };
  }

  /** Vertices of the round surface that lie on the round, x y z. The next call overwrites them. */
  pointsOf(triangles: Int32Array): Float64Array {
    this.#queue.set(triangles);
    return this.#shapingPoints(triangles.length);
  }

  /** Corners of triangles, x y z, three a triangle. The next call, or one of `pointsOf`, overwrites them. */
  cornersOf(triangles: Int32Array): Float64Array {
    const { mesh } = this.#surface;
    if (9 * triangles.length > this.#points.length) this.#points = new Float64Array(18 * triangles.length);
    const found = this.#points;
    let length = 0;
    for (const t of triangles) {
      for (let h = 3 * t; h < 3 * t + 3; h++) {
        const v = 3 * mesh.triangles[h]!;
        for (let k = 0; k < 3; k++) found[length++] = mesh.positions[v + k]!;
      }
    }
    return found.subarray(0, length);
  }

  #guess(h: number): Cylinder | undefined {
    const { mesh, mates } = this.#surface;
    const { positions: p, triangles } = mesh;
    const [from, to] = [3 * triangles[h]!, 3 * triangles[h % 3 === 2 ? h - 2 : h + 1]!];
    const [ex, ey, ez] = [p[to]! - p[from]!, p[to + 1]! - p[from + 1]!, p[to + 2]! - p[from + 2]!];
    const length = Math.sqrt(ex * ex + ey * ey + ez * ez);
    if (length === 0) return undefined;
    const [ax, ay, az] = [ex / length, ey / length, ez / length];
    const one = this.#nextCrease(h, ax, ay, az);
    const two = one && this.#nextCrease(mates[h]!, -ax, -ay, -az);
    if (one === undefined || two === undefined) return undefined;
    const [bx, by, bz] = one;
    const [dx, dy, dz] = two;
    // Centre of the circle through the edge, where the origin is, and the next ones.
    const [bb, dd, bd] = [
      bx * bx + by * by + bz * bz,
      dx * dx + dy * dy + dz * dz,
      bx * dx + by * dy + bz * dz,
    ];
    const det = bb * dd - bd * bd;
    if (!(det > 1e-12 * bb * dd)) return undefined;
    const [j, k] = [(dd * (bb - bd)) / (2 * det), (bb * (dd - bd)) / (2 * det)];
    const [mx, my, mz] = [j * bx + k * dx, j * by + k * dy, j * bz + k * dz];
    const radius = Math.sqrt(mx * mx + my * my + mz * mz);
    if (!(radius < this.#surface.diagonal)) return undefined;
    const chord = 2 * radius * SIN_HALF_FACET;
    if (bb > chord * chord || dd > chord * chord) return undefined;
    return { ax, ay, az, cx: p[from]! + mx, cy: p[from + 1]! + my, cz: p[from + 2]! + mz, radius };
  }

  /** Way square to half-edge h, which runs along the unit vector a, over its own side's facet to the next edge along a. Triangle by
   *  triangle, as a facet may be cut into many. Undefined where the facet ends otherwise. */
  #nextCrease(h: number, ax: number, ay: number, az: number): [number, number, number] | undefined {
    const { mesh, mates, bends, flat, normals } = this.#surface;
    const { positions: p, triangles } = mesh;
    const [from, to] = [3 * triangles[h]!, 3 * triangles[h % 3 === 2 ? h - 2 : h + 1]!];
    const mx = (p[from]! + p[to]!) / 2;
    const my = (p[from + 1]! + p[to + 1]!) / 2;
    const mz = (p[from + 2]! + p[to + 2]!) / 2;
    const n = 3 * Math.floor(h / 3);
    // Into the facet: the normal turned by the edge.
    const ix = normals[n + 1]! * az - normals[n + 2]! * ay;
    const iy = normals[n + 2]! * ax - normals[n]! * az;
    const iz = normals[n]! * ay - normals[n + 1]! * ax;
    const along = (v: number) => (p[v]! - mx) * ax + (p[v + 1]! - my) * ay + (p[v + 2]! - mz) * az;
    const into = (v: number) => (p[v]! - mx) * ix + (p[v + 1]! - my) * iy + (p[v + 2]! - mz) * iz;
    let entry = h;
    for (let step = 0; step < MOST_STEPS; step++) {
      const t = 3 * Math.floor(entry / 3);
      const k = entry - t;
      // The line leaves by the side that joins the far corner to the end of the entry on its other side of the line.
      const far = along(3 * triangles[t + ((k + 2) % 3)]!);
      const exit = far > 0 === along(3 * triangles[entry]!) > 0 ? t + ((k + 1) % 3) : t + ((k + 2) % 3);
      const mate = mates[exit]!;
      if (mate === -1) return undefined;
      if (!flat[exit]) {
        const a = 3 * triangles[exit]!;
        const b = 3 * triangles[exit % 3 === 2 ? exit - 2 : exit + 1]!;
        const s = along(b) - along(a);
        const d = into(b) - into(a);
        if (Math.abs(d) < PARALLEL * Math.abs(s)) {
          const share = s === 0 ? 0 : -along(a) / s;
          return [
            p[a]! + share * (p[b]! - p[a]!) - mx,
            p[a + 1]! + share * (p[b + 1]! - p[a + 1]!) - my,
            p[a + 2]! + share * (p[b + 2]! - p[a + 2]!) - mz,
          ];
        }
        if (Math.abs(bends[exit]!) > SURE_BEND) return undefined;
      }
      entry = mate;
    }
    return undefined;
  }

  /** Fills the queue with at most `limit` triangles that hang together with the seeds and lie on the cylinder. */
  #flood(seeds: readonly number[], c: Cylinder, sense: 1 | -1, owner: Int32Array, limit: number): number {
    const { mates, flat, bends } = this.#surface;
    const seen = this.#seen;
    const queue = this.#queue;
    const stamp = ++this.#stamp;
    let count = 0;
    for (const t of seeds) {
      if (seen[t] === stamp || owner[t]! >= 0 || count >= limit) continue;
      seen[t] = stamp;
      if (this.#lies(t, c, sense)) queue[count++] = t;
    }
    const off = roundness(this.#surface, c.radius);
    for (let i = 0; i < count && count < limit; i++) {
      const t = 3 * queue[i]!;
      for (let h = t; h < t + 3; h++) {
        const mate = mates[h]!;
        if (mate === -1) continue;
        const next = (mate / 3) | 0;
        if (seen[next] === stamp || owner[next]! >= 0 || count >= limit) continue;
        // Within a facet anywhere; from facet to facet only over an edge that lies on the round.
        if (!(Math.abs(bends[h]!) < SURE_BEND || flat[h] || this.#onRound(h, c, off))) continue;
        seen[next] = stamp;
        if (this.#lies(next, c, sense)) queue[count++] = next;
      }
    }
    return count;
  }

  /** Whether both ends of a half-edge lie on the cylinder. */
  #onRound(h: number, c: Cylinder, off: number): boolean {
    const { triangles } = this.#surface.mesh;
    const least = (c.radius - off) ** 2;
    const most = (c.radius + off) ** 2;
    return (
      this.#isBetween(3 * triangles[h]!, c, least, most) &&
      this.#isBetween(3 * triangles[h % 3 === 2 ? h - 2 : h + 1]!, c, least, most)
    );
  }

  /** Whether the square of a vertex's distance from the axis lies between two; `v` is where its coordinates start. */
  #isBetween(v: number, c: Cylinder, least: number, most: number): boolean {
    const { positions: p } = this.#surface.mesh;
    const dx = p[v]! - c.cx;
    const dy = p[v + 1]! - c.cy;
    const dz = p[v + 2]! - c.cz;
    const s = dx * c.ax + dy * c.ay + dz * c.az;
    const square = dx * dx + dy * dy + dz * dz - s * s;
    return !(square < least || square > most);
  }

  /** Runs for every triangle near every seed of a fine mesh, so nothing is allocated in it. */
  #lies(t: number, c: Cylinder, sense: 1 | -1): boolean {
    const { mesh, normals, heights, slim } = this.#surface;
    const { positions: p, triangles } = mesh;
    const off = roundness(this.#surface, c.radius);
    const nx = normals[3 * t]!;
    const ny = normals[3 * t + 1]!;
    const nz = normals[3 * t + 2]!;
    const lean = Math.abs(nx * c.ax + ny * c.ay + nz * c.az);
    // Of a slim triangle no more is known than whether it faces along the axis, as the ears of a floor do.
    const isSlim = heights[t]! < slim;
    if (lean > (isSlim ? SLIM_LEAN : LEAN + slim / heights[t]! / 4)) return false;
    // A facet may end anywhere between its edges, as where a slanted or a round cut goes through it.
    const low = c.radius * COS_HALF_FACET - off;
    const rounds = this.#rounds;
    for (let k = 0; k < 3; k++) {
      const v = 3 * triangles[3 * t + k]!;
      const dx = p[v]! - c.cx;
      const dy = p[v + 1]! - c.cy;
      const dz = p[v + 2]! - c.cz;
      const s = dx * c.ax + dy * c.ay + dz * c.az;
      const x = dx - s * c.ax;
      const y = dy - s * c.ay;
      const z = dz - s * c.az;
      const rho = Math.sqrt(x * x + y * y + z * z);
      if (rho > c.radius + off || rho < low) return false;
      rounds[3 * k] = x;
      rounds[3 * k + 1] = y;
      rounds[3 * k + 2] = z;
    }
    const chord = 2 * c.radius * SIN_HALF_FACET + off;
    for (let k = 0; k < 3; k++) {
      const i = 3 * k;
      const j = k === 2 ? 0 : i + 3;
      const x = rounds[i]! - rounds[j]!;
      const y = rounds[i + 1]! - rounds[j + 1]!;
      const z = rounds[i + 2]! - rounds[j + 2]!;
      if (x * x + y * y + z * z > chord * chord) return false;
    }
    if (isSlim) return true;
    const mx = rounds[0]! + rounds[3]! + rounds[6]!;
    const my = rounds[1]! + rounds[4]! + rounds[7]!;
    const mz = rounds[2]! + rounds[5]! + rounds[8]!;
    return sense * (nx * mx + ny * my + nz * mz) > 0.85 * Math.sqrt(mx * mx + my * my + mz * mz);
  }

  readonly #rounds = new Float64Array(9);

  /** Ends of the edges at which the first triangles in the queue turn into one another, each once. The next call
   *  overwrites them. */
  #shapingPoints(count: number): Float64Array {
    const { mesh, mates, flat } = this.#surface;
    const { positions: p, triangles } = mesh;
    const stamp = ++this.#stamp;
    const seen = this.#seen;
    const gathered = this.#gathered;
    const queue = this.#queue;
    // Three edges a triangle, each with two ends, and no vertex twice.
    if (Math.min(18 * count, p.length) > this.#points.length)
      this.#points = new Float64Array(Math.min(36 * count, p.length));
    const found = this.#points;
    let length = 0;
    for (let i = 0; i < count; i++) seen[queue[i]!] = stamp;
    for (let i = 0; i < count; i++) {
      const t = 3 * queue[i]!;
      for (let h = t; h < t + 3; h++) {
        const mate = mates[h]!;
        if (mate < 0 || flat[h] || seen[(mate / 3) | 0] !== stamp) continue;
        for (let end = 0; end < 2; end++) {
          const v = triangles[end === 0 ? h : h % 3 === 2 ? h - 2 : h + 1]!;
          if (gathered[v] === stamp) continue;
          gathered[v] = stamp;
          found[length++] = p[3 * v]!;
          found[length++] = p[3 * v + 1]!;
          found[length++] = p[3 * v + 2]!;
        }
      }
    }
    // The far edges of the outermost facets shape the round too, but only a whole look around tells them from cuts.
    return found.subarray(0, length);
  }
}
