import Delaunator from 'delaunator';
import type { Contour } from '../solid/vector.ts';
import type { ElementSize, Fineness } from './elementSize.ts';
import { elementSize } from './elementSize.ts';
import type { Boundary, Chain, Corner } from './profileBoundary.ts';
import { pointAlong, profileBoundary } from './profileBoundary.ts';

/** Six-node triangles over a profile. */
export interface ProfileMesh {
  /** x, y of each node, mm; corner nodes first, then those on the middle of edges. */
  readonly nodes: Float64Array;
  readonly cornerCount: number;
  /** Six node numbers a triangle: corners counter-clockwise, then the middles of edges 0-1, 1-2, 2-0. */
  readonly triangles: Int32Array;
  /** Three node numbers a boundary edge: start, end, middle; material on the left. */
  readonly boundary: Int32Array;
  readonly corners: readonly Corner[];
}

/** A boundary edge while the mesh is being made: two points and the piece of contour between them. */
interface Edge {
  a: number;
  b: number;
  chain: Chain;
  from: number;
  to: number;
}

/** Rounds of putting points in; a clip takes 4 to 7. */
const ROUNDS = 24;

/** Graded mesh of a profile: its boundary divided by the wanted size with sharp corners kept, points put in at
 *  the centres of circles that are too large (after Ruppert's refinement, a batch at a time), evened out, and
 *  triangulated by Delaunay. Edges on curves carry their middle node on the curve. Same input, same mesh.
 *
 *  Returns `null` when no mesh comes about: nothing to mesh, or contours that cross themselves. */
export function profileMesh(contours: readonly Contour[], fineness: Fineness): ProfileMesh | null {
  const boundary = profileBoundary(contours);
  if (boundary.contours.length === 0) return null;
  const size = elementSize(boundary, fineness);
  const draft = new Draft(boundary, size);
  if (!draft.refine()) return null;
  for (let i = 0; i < 3; i++) {
    draft.even();
    if (!draft.refine()) return null;
  }
  return draft.finish(boundary.corners);
}

/** A triangulation in the making. */
class Draft {
  /** x, y of each point; the first `fixed` were on the boundary from the start, others tell by `onBoundary`. */
  private xy: number[] = [];
  private onBoundary: boolean[] = [];
  private edges: Edge[] = [];
  private triangles: Uint32Array = new Uint32Array(0);
  private halfedges: Int32Array = new Int32Array(0);
  private inside: Uint8Array = new Uint8Array(0);
  private readonly size: ElementSize;

  constructor(boundary: Boundary, size: ElementSize) {
    this.size = size;
    for (const chains of boundary.contours) this.divide(chains);
  }

  /** Divides the chains of one contour by the wanted size, each edge taking its share of the integral of 1/size. */
  private divide(chains: readonly Chain[]): void {
    const first = this.xy.length / 2;
    const starts: { chain: Chain; s: number }[] = [];
    for (const chain of chains) {
      const steps = Math.max(8, Math.min(400, chain.points.length * 2));
      const ds = chain.length / steps;
      const sum = new Float64Array(steps + 1);
      for (let k = 0; k < steps; k++) {
        const p = pointAlong(chain, (k + 0.5) * ds);
        sum[k + 1] = sum[k]! + ds / this.size(p[0], p[1]);
      }
      const total = sum[steps]!;
      const count = Math.max(
        chain.closed ? 6 : chains.length === 1 ? 3 : chains.length === 2 ? 2 : 1,
        Math.round(total),
      );
      for (let k = 0, j = 0; k < count; k++) {
        const goal = (total * k) / count;
        while (j < steps - 1 && sum[j + 1]! < goal) j++;
        starts.push({ chain, s: ds * (j + (goal - sum[j]!) / (sum[j + 1]! - sum[j]!)) });
      }
    }
    starts.forEach(({ chain, s }, k) => {
      const p = pointAlong(chain, s);
      this.xy.push(p[0], p[1]);
      this.onBoundary.push(true);
      const next = starts[(k + 1) % starts.length]!;
      const ends = next.chain === chain && next.s > s ? next.s : chain.length;
      this.edges.push({ a: first + k, b: first + ((k + 1) % starts.length), chain, from: s, to: ends });
    });
  }

  /** Puts points in until the boundary is there and no triangle is too large. False when that does not come about. */
  refine(): boolean {
    for (let round = 0; round < ROUNDS; round++) {
      this.triangulate();
      if (this.splitMissing()) continue;
      this.findInside();
      if (!this.insert()) return true;
    }
    return !this.splitMissing();
  }

  private triangulate(): void {
    const d = new Delaunator(Float64Array.from(this.xy));
    this.triangles = d.triangles;
    this.halfedges = d.halfedges;
  }

  /** Which half-edges start at each point: `head[p]`, then `next[e]`. */
  private outgoing(): { head: Int32Array; next: Int32Array } {
    const head = new Int32Array(this.xy.length / 2).fill(-1);
    const next = new Int32Array(this.triangles.length);
    for (let e = 0; e < this.triangles.length; e++) {
      const p = this.triangles[e]!;
      next[e] = head[p]!;
      head[p] = e;
    }
    return { head, next };
  }

  /** Halves every boundary edge the triangulation lacks; true when there was one. */
  private splitMissing(): boolean {
    const { head, next } = this.outgoing();
    const has = (a: number, b: number) => {
      for (let e = head[a]!; e >= 0; e = next[e]!) if (this.triangles[after(e)] === b) return true;
      return false;
    };
    const whole: Edge[] = [];
    let missing = false;
    for (const edge of this.edges) {
      if (has(edge.a, edge.b) || has(edge.b, edge.a)) {
        whole.push(edge);
        continue;
      }
      missing = true;
      const middle = (edge.from + edge.to) / 2;
      const p = pointAlong(edge.chain, middle);
      const m = this.xy.length / 2;
      this.xy.push(p[0], p[1]);
      this.onBoundary.push(true);
      whole.push({ ...edge, b: m, to: middle }, { ...edge, a: m, from: middle });
    }
    this.edges = whole;
    return missing;
  }

  /** Marks the triangles of the material: those left of a boundary edge, and on from there up to the boundary. */
  private findInside(): void {
    const { head, next } = this.outgoing();
    const wall = new Uint8Array(this.triangles.length);
    const stack: number[] = [];
    // delaunator's triangles run clockwise with y upwards: the half-edge b to a has the material's triangle.
    for (const { a, b } of this.edges) {
      for (let e = head[b]!; e >= 0; e = next[e]!) {
        if (this.triangles[after(e)] !== a) continue;
        wall[e] = 1;
        stack.push(Math.floor(e / 3));
      }
      for (let e = head[a]!; e >= 0; e = next[e]!) if (this.triangles[after(e)] === b) wall[e] = 1;
    }
    this.inside = new Uint8Array(this.triangles.length / 3);
    for (const t of stack) this.inside[t] = 1;
    while (stack.length > 0) {
      const t = stack.pop()!;
      for (let e = 3 * t; e < 3 * t + 3; e++) {
        const twin = this.halfedges[e]!;
        if (wall[e] || twin < 0) continue;
        const u = Math.floor(twin / 3);
        if (this.inside[u]) continue;
        this.inside[u] = 1;
        stack.push(u);
      }
    }
  }

  /** Puts a point into each triangle that is too large, largest first, none near another; false when none was put in. */
  private insert(): boolean {
    const { xy, triangles, size } = this;
    const found: { x: number; y: number; h: number; excess: number }[] = [];
    for (let t = 0; t < this.inside.length; t++) {
      if (!this.inside[t]) continue;
      const [a, b, c] = [triangles[3 * t]! * 2, triangles[3 * t + 1]! * 2, triangles[3 * t + 2]! * 2];
      const [bx, by] = [xy[b]! - xy[a]!, xy[b + 1]! - xy[a + 1]!];
      const [cx, cy] = [xy[c]! - xy[a]!, xy[c + 1]! - xy[a + 1]!];
      const d = 2 * (bx * cy - by * cx);
      const [b2, c2] = [bx * bx + by * by, cx * cx + cy * cy];
      const ux = (cy * b2 - by * c2) / d;
      const uy = (bx * c2 - cx * b2) / d;
      const radius = Math.hypot(ux, uy);
      const gx = xy[a]! + (bx + cx) / 3;
      const gy = xy[a + 1]! + (by + cy) / 3;
      const h = size(gx, gy);
      // An equilateral triangle of the wanted edge has a circle of 0.577 h.
      if (!(radius > 0.75 * h)) continue;
      const inCircle = { x: xy[a]! + ux, y: xy[a + 1]! + uy };
      if (this.clear(inCircle.x, inCircle.y, 0.45 * h)) found.push({ ...inCircle, h, excess: radius / h });
      else if (this.clear(gx, gy, 0.45 * h)) found.push({ x: gx, y: gy, h, excess: radius / h });
    }
    found.sort((p, q) => q.excess - p.excess || p.x - q.x || p.y - q.y);
    const taken: typeof found = [];
    for (const p of found) {
      if (taken.some((q) => (q.x - p.x) ** 2 + (q.y - p.y) ** 2 < (0.7 * p.h) ** 2)) continue;
      taken.push(p);
      xy.push(p.x, p.y);
      this.onBoundary.push(false);
    }
    return taken.length > 0;
  }

  /** In the material and further than `room` from its boundary. */
  private clear(x: number, y: number, room: number): boolean {
    const { xy } = this;
    let within = false;
    for (const { a, b } of this.edges) {
      const [ax, ay] = [xy[2 * a]!, xy[2 * a + 1]!];
      const [ex, ey] = [xy[2 * b]! - ax, xy[2 * b + 1]! - ay];
      const [px, py] = [x - ax, y - ay];
      const t = Math.max(0, Math.min(1, (px * ex + py * ey) / (ex * ex + ey * ey)));
      const [dx, dy] = [px - t * ex, py - t * ey];
      if (dx * dx + dy * dy < room * room) return false;
      if (ay > y !== ay + ey > y && px < (ex * py) / ey) within = !within;
    }
    return within;
  }

  /** Moves each point within the material to the mean of the centres of its triangles, weighted by area. */
  even(): void {
    const n = this.xy.length / 2;
    const sum = new Float64Array(3 * n);
    for (let t = 0; t < this.inside.length; t++) {
      if (!this.inside[t]) continue;
      const corners = [
        this.triangles[3 * t]!,
        this.triangles[3 * t + 1]!,
        this.triangles[3 * t + 2]!,
      ] as const;
      const [a, b, c] = corners;
      const area = Math.abs(signedArea(this.xy, a, b, c));
      const gx = (this.xy[2 * a]! + this.xy[2 * b]! + this.xy[2 * c]!) / 3;
      const gy = (this.xy[2 * a + 1]! + this.xy[2 * b + 1]! + this.xy[2 * c + 1]!) / 3;
      for (const p of corners) {
        sum[3 * p] = sum[3 * p]! + area * gx;
        sum[3 * p + 1] = sum[3 * p + 1]! + area * gy;
        sum[3 * p + 2] = sum[3 * p + 2]! + area;
      }
    }
    for (let p = 0; p < n; p++) {
      const area = sum[3 * p + 2]!;
      if (this.onBoundary[p] || area === 0) continue;
      this.xy[2 * p] = sum[3 * p]! / area;
      this.xy[2 * p + 1] = sum[3 * p + 1]! / area;
    }
  }

  finish(corners: readonly Corner[]): ProfileMesh | null {
    const { triangles, halfedges, inside } = this;
    this.findInside();
    const number = new Int32Array(this.xy.length / 2).fill(-1);
    const nodes: number[] = [];
    let meshed = 0;
    for (let t = 0; t < inside.length; t++) {
      if (!inside[t]) continue;
      const area = -signedArea(this.xy, triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!);
      meshed += area;
      for (let e = 3 * t; e < 3 * t + 3; e++) {
        const p = triangles[e]!;
        if (number[p]! >= 0) continue;
        number[p] = nodes.length / 2;
        nodes.push(this.xy[2 * p]!, this.xy[2 * p + 1]!);
      }
    }
    let enclosed = 0;
    for (const { a, b } of this.edges) {
      enclosed += (this.xy[2 * a]! * this.xy[2 * b + 1]! - this.xy[2 * b]! * this.xy[2 * a + 1]!) / 2;
    }
    // The one check that catches crossed contours, lost edges and leaks alike.
    if (!(enclosed > 0) || Math.abs(meshed - enclosed) > 1e-6 * enclosed) return null;

    const cornerCount = nodes.length / 2;
    const middle = new Int32Array(triangles.length).fill(-1);
    const out: number[] = [];
    const boundaryMiddle = new Map<number, number>();
    for (let t = 0; t < inside.length; t++) {
      if (!inside[t]) continue;
      for (let e = 3 * t; e < 3 * t + 3; e++) {
        if (middle[e]! >= 0) continue;
        const [p, q] = [triangles[e]!, triangles[after(e)]!];
        middle[e] = nodes.length / 2;
        const twin = halfedges[e]!;
        if (twin >= 0) middle[twin] = middle[e]!;
        nodes.push((this.xy[2 * p]! + this.xy[2 * q]!) / 2, (this.xy[2 * p + 1]! + this.xy[2 * q + 1]!) / 2);
        boundaryMiddle.set(p * number.length + q, middle[e]!);
        boundaryMiddle.set(q * number.length + p, middle[e]!);
      }
      // Turned round: corners 0, 2, 1 run counter-clockwise.
      const [e0, e1, e2] = [3 * t, 3 * t + 1, 3 * t + 2];
      out.push(number[triangles[e0]!]!, number[triangles[e2]!]!, number[triangles[e1]!]!);
      out.push(middle[e2]!, middle[e1]!, middle[e0]!);
    }
    const boundary: number[] = [];
    for (const { a, b, chain, from, to } of this.edges) {
      const m = boundaryMiddle.get(a * number.length + b);
      if (m === undefined) return null;
      boundary.push(number[a]!, number[b]!, m);
      const p = pointAlong(chain, (from + to) / 2);
      const chord = Math.hypot(this.xy[2 * a]! - this.xy[2 * b]!, this.xy[2 * a + 1]! - this.xy[2 * b + 1]!);
      // A middle node further off than an eighth of the edge could turn the element inside out.
      if (Math.hypot(p[0] - nodes[2 * m]!, p[1] - nodes[2 * m + 1]!) > chord / 8) continue;
      nodes[2 * m] = p[0];
      nodes[2 * m + 1] = p[1];
    }
    return {
      nodes: Float64Array.from(nodes),
      cornerCount,
      triangles: Int32Array.from(out),
      boundary: Int32Array.from(boundary),
      corners,
    };
  }
}

const after = (e: number): number => (e % 3 === 2 ? e - 2 : e + 1);

function signedArea(xy: ArrayLike<number>, a: number, b: number, c: number): number {
  const [ax, ay] = [xy[2 * a]!, xy[2 * a + 1]!];
  return ((xy[2 * b]! - ax) * (xy[2 * c + 1]! - ay) - (xy[2 * b + 1]! - ay) * (xy[2 * c]! - ax)) / 2;
}
