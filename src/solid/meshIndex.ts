import type { Mesh } from './mesh.ts';
import { nearestOnTriangle } from './nearestOnTriangle.ts';
import { cross, dot, lengthOf, subtract, times, type Vec3 } from './vector.ts';

/** The place on a surface nearest to a point. */
export interface Nearest {
  /** mm, 0 or above. */
  readonly distance: number;
  readonly at: Vec3;
  /** Number of the triangle it lies on; one of them where several meet. */
  readonly triangle: number;
}

/** Triangles in a leaf of the tree. */
const LEAF = 6;
/** Parallel to no face that a part is likely to have, so that a line along it meets edges and corners only by accident. */
const ASKEW: Vec3 = [0.5377, 0.2951, 0.7898];

/** A closed mesh made ready to be asked for distances, for what lies inside and for what a line meets: a tree of boxes
 *  around its triangles. Building takes O(n log n), a question about O(log n). */
export class MeshIndex {
  readonly #corners: Float64Array;
  /** Triangles in the order of the tree. */
  readonly #order: Uint32Array;
  /** Six numbers a node: least and greatest corner of its box. */
  readonly #boxes: number[] = [];
  /** Three numbers a node: first triangle and how many, or -1 and where its second half starts. */
  readonly #nodes: number[] = [];

  constructor({ positions, triangles }: Mesh) {
    const count = triangles.length / 3;
    this.#corners = new Float64Array(9 * count);
    for (let k = 0; k < triangles.length; k++)
      for (let c = 0; c < 3; c++) this.#corners[3 * k + c] = positions[3 * triangles[k]! + c]!;
    this.#order = Uint32Array.from({ length: count }, (_, t) => t);
    if (count > 0) this.#build(0, count);
  }

  /** Unit normal of a triangle, outwards. */
  normal(triangle: number): Vec3 {
    const [a, b, c] = this.#cornersOf(triangle);
    const n = cross(subtract(b, a), subtract(c, a));
    const size = lengthOf(n);
    return size === 0 ? [0, 0, 0] : times(n, 1 / size);
  }

  /** The place of the surface nearest to `p`, or null when there is none closer than `reach`, mm. */
  nearest(p: Readonly<Vec3>, reach = Infinity): Nearest | null {
    let best = reach * reach;
    let found: Nearest | null = null;
    const pile: number[] = this.#nodes.length > 0 ? [0] : [];
    for (let node = pile.pop(); node !== undefined; node = pile.pop()) {
      if (this.#away(node, p) >= best) continue;
      const [first, size] = [this.#nodes[2 * node]!, this.#nodes[2 * node + 1]!];
      if (first < 0) {
        // The nearer half is looked at first, so that the other one is likely to be passed over.
        const [one, other] = [node + 1, size];
        if (this.#away(one, p) < this.#away(other, p)) pile.push(other, one);
        else pile.push(one, other);
        continue;
      }
      for (let k = first; k < first + size; k++) {
        const triangle = this.#order[k]!;
        const at = nearestOnTriangle(this.#cornersOf(triangle), p);
        const away = subtract(at, p);
        const squared = dot(away, away);
        if (squared < best) {
          best = squared;
          found = { distance: Math.sqrt(squared), at, triangle };
        }
      }
    }
    return found;
  }

  /** Whether `p` lies inside: a line from it passes the surface an odd number of times. */
  holds(p: Readonly<Vec3>): boolean {
    let passes = 0;
    this.#along(p, ASKEW, () => {
      passes++;
    });
    return passes % 2 === 1;
  }

  /** Distance along the unit vector `way` from `p` to the first place of the surface beyond `from`, mm; null for none. */
  hit(p: Readonly<Vec3>, way: Readonly<Vec3>, from = 0): { distance: number; triangle: number } | null {
    let first: { distance: number; triangle: number } | null = null;
    this.#along(p, way, (distance, triangle) => {
      if (distance > from && (first === null || distance < first.distance)) first = { distance, triangle };
    });
    return first;
  }

  #cornersOf(triangle: number): [Vec3, Vec3, Vec3] {
    return [this.#corner(triangle, 0), this.#corner(triangle, 1), this.#corner(triangle, 2)];
  }

  #corner(triangle: number, k: number): Vec3 {
    const i = 9 * triangle + 3 * k;
    return [this.#corners[i]!, this.#corners[i + 1]!, this.#corners[i + 2]!];
  }

  /** Puts a node around `count` triangles from `first` on, and its halves after it. */
  #build(first: number, count: number): void {
    const node = this.#nodes.length / 2;
    const box = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
    for (let k = first; k < first + count; k++) {
      for (let i = 0; i < 9; i++) {
        const value = this.#corners[9 * this.#order[k]! + i]!;
        if (value < box[i % 3]!) box[i % 3] = value;
        if (value > box[3 + (i % 3)]!) box[3 + (i % 3)] = value;
      }
    }
    this.#boxes.push(...box);
    this.#nodes.push(first, count);
    if (count <= LEAF) return;
    const sides = [0, 1, 2].map((k) => box[k + 3]! - box[k]!);
    const axis = sides.indexOf(Math.max(...sides));
    const middle = (triangle: number): number =>
      this.#corners[9 * triangle + axis]! +
      this.#corners[9 * triangle + 3 + axis]! +
      this.#corners[9 * triangle + 6 + axis]!;
    this.#order.subarray(first, first + count).sort((s, t) => middle(s) - middle(t) || s - t);
    const half = count >> 1;
    this.#nodes[2 * node] = -1;
    this.#build(first, half);
    this.#nodes[2 * node + 1] = this.#nodes.length / 2;
    this.#build(first + half, count - half);
  }

  /** Square of the distance from a point to a node's box. */
  #away(node: number, p: Readonly<Vec3>): number {
    let sum = 0;
    for (let k = 0; k < 3; k++) {
      const off = Math.max(this.#boxes[6 * node + k]! - p[k]!, p[k]! - this.#boxes[6 * node + 3 + k]!, 0);
      sum += off * off;
    }
    return sum;
  }

  /** Every place where the half line from `p` along `way` meets the surface (Moller and Trumbore, 1997). */
  #along(p: Readonly<Vec3>, way: Readonly<Vec3>, meet: (distance: number, triangle: number) => void): void {
    const pile: number[] = this.#nodes.length > 0 ? [0] : [];
    for (let node = pile.pop(); node !== undefined; node = pile.pop()) {
      if (!this.#crossed(node, p, way)) continue;
      const [first, size] = [this.#nodes[2 * node]!, this.#nodes[2 * node + 1]!];
      if (first < 0) {
        pile.push(size, node + 1);
        continue;
      }
      for (let k = first; k < first + size; k++) {
        const triangle = this.#order[k]!;
        const distance = this.#meeting(triangle, p, way);
        if (distance !== null && distance > 0) meet(distance, triangle);
      }
    }
  }

  #crossed(node: number, p: Readonly<Vec3>, way: Readonly<Vec3>): boolean {
    let [near, far] = [0, Infinity];
    for (let k = 0; k < 3; k++) {
      const [low, high] = [this.#boxes[6 * node + k]! - p[k]!, this.#boxes[6 * node + 3 + k]! - p[k]!];
      if (way[k] === 0) {
        if (low > 0 || high < 0) return false;
        continue;
      }
      const [one, other] = [low / way[k]!, high / way[k]!];
      near = Math.max(near, Math.min(one, other));
      far = Math.min(far, Math.max(one, other));
    }
    // Boxes of faces square to an axis have no thickness; rounding must not lose them.
    return near <= far + 1e-9;
  }

  #meeting(triangle: number, p: Readonly<Vec3>, way: Readonly<Vec3>): number | null {
    const [a, b, c] = this.#cornersOf(triangle);
    const [e, f] = [subtract(b, a), subtract(c, a)];
    const across = cross(way, f);
    const volume = dot(e, across);
    if (volume === 0) return null;
    const from = subtract(p, a);
    const u = dot(from, across) / volume;
    if (u < 0 || u > 1) return null;
    const up = cross(from, e);
    const v = dot(way, up) / volume;
    return v < 0 || u + v > 1 ? null : dot(f, up) / volume;
  }
}
