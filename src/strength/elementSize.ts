import type { Vec2 } from '../solid/vector.ts';
import type { Boundary } from './profileBoundary.ts';
import { pointAlong, turn } from './profileBoundary.ts';

/** How fine a mesh is to be. Fractions and angles, so that it follows the part and not the unit. */
export interface Fineness {
  /** Element edge over local thickness of the material. */
  readonly ofThickness: number;
  /** Largest turn of a curved boundary along one element edge, radians. */
  readonly turn: number;
  /** Growth of the element edge per mm of distance. */
  readonly growth: number;
  /** Smallest element edge, mm. */
  readonly smallest: number;
  /** Largest element edge, mm. */
  readonly largest: number;
  /** Places that ask for more. */
  readonly at: readonly { readonly at: Readonly<Vec2>; readonly size: number }[];
}

/** Wanted element edge at a point, mm. */
export type ElementSize = (x: number, y: number) => number;

/** Walls of a wedge steeper than this to each other are a corner, not a thickness: cos of the angle between normals. */
const FACING = -0.7;

/** The wanted element edge over a profile: the local thickness along the inward normal and the curvature of the
 *  boundary, taken at some 120 places of it, and growing between them no faster than `growth`.
 *  Costs O(places x facets), about 40,000 ray tests for a clip. */
export function elementSize(boundary: Boundary, fineness: Fineness): ElementSize {
  const chains = boundary.contours.flat();
  const segments = chains.flatMap((c) => c.points.slice(1).map((q, i) => [...c.points[i]!, ...q]));
  const seg = Float64Array.from(segments.flat());
  const step = boundary.perimeter / 120;
  const wanted: { x: number; y: number; h: number }[] = [];
  const want = (x: number, y: number, h: number) => {
    if (h < fineness.largest) wanted.push({ x, y, h: Math.max(h, fineness.smallest) });
  };

  for (const c of chains) {
    const places = Math.max(1, Math.round(c.length / step));
    for (let k = 0; k < places; k++) {
      const s = ((k + 0.5) / places) * c.length;
      const ds = Math.min(c.length * 0.01, step * 0.05);
      const [a, p, b] = [pointAlong(c, s - ds), pointAlong(c, s), pointAlong(c, s + ds)];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      if (length === 0) continue;
      const t = thickness(seg, p, -(b[1] - a[1]) / length, (b[0] - a[0]) / length);
      want(p[0], p[1], fineness.ofThickness * t);
    }
    const last = c.points.length - 1;
    for (let i = c.closed ? 0 : 1; i < last; i++) {
      const before = i === 0 ? c.points[last - 1]! : c.points[i - 1]!;
      const [p, after] = [c.points[i]!, c.points[i + 1]!];
      const bend = Math.abs(turn(before, p, after));
      const length =
        (Math.hypot(p[0] - before[0], p[1] - before[1]) + Math.hypot(after[0] - p[0], after[1] - p[1])) / 2;
      if (bend > 1e-3) want(p[0], p[1], (fineness.turn * length) / bend);
    }
  }
  for (const f of fineness.at) want(f.at[0], f.at[1], f.size);

  // Keep only the wishes no other one overrules; on a dense curve that is a tenth of them.
  wanted.sort((a, b) => a.h - b.h);
  const { growth, largest } = fineness;
  const kept: number[] = [];
  const sizeFrom = (x: number, y: number) => {
    let h = largest;
    for (let i = 0; i < kept.length; i += 3) {
      const dx = x - kept[i]!;
      const dy = y - kept[i + 1]!;
      const room = (h - kept[i + 2]!) / growth;
      if (room > 0 && dx * dx + dy * dy < room * room)
        h = kept[i + 2]! + growth * Math.sqrt(dx * dx + dy * dy);
    }
    return h;
  };
  // 2 % of slack: equal wishes along an arc would otherwise all stay.
  for (const w of wanted) if (sizeFrom(w.x, w.y) > w.h * 1.02) kept.push(w.x, w.y, w.h);
  return sizeFrom;
}

/** Distance from `p` along the unit normal to the next facet that faces it, mm; Infinity when there is none. */
function thickness(seg: Float64Array, p: Readonly<Vec2>, nx: number, ny: number): number {
  let best = Infinity;
  let facing = 1;
  for (let i = 0; i < seg.length; i += 4) {
    const ax = seg[i]! - p[0];
    const ay = seg[i + 1]! - p[1];
    const ex = seg[i + 2]! - seg[i]!;
    const ey = seg[i + 3]! - seg[i + 1]!;
    const across = nx * ey - ny * ex;
    if (across <= 0) continue; // seen from inside the material a facet is met from its left
    const along = (ax * ey - ay * ex) / across;
    if (along <= 1e-7 || along >= best) continue;
    const where = (ax * ny - ay * nx) / across;
    if (where < 0 || where > 1) continue;
    best = along;
    facing = (-nx * ey + ny * ex) / Math.hypot(ex, ey);
  }
  return facing < FACING ? best : Infinity;
}
