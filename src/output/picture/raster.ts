import type { Vec3 } from '../../solid/vector.ts';

/** A stretch of the picture on a finer grid: rows `top` to `top + rows`. */
export interface Band {
  readonly width: number;
  readonly top: number;
  readonly rows: number;
}

/** A triangle on the fine grid: x right, y down, z towards the reader. */
export type FlatTriangle = readonly [Readonly<Vec3>, Readonly<Vec3>, Readonly<Vec3>];

/** Visits each grid cell of the band whose middle lies in the triangle, with the depth there. A cell on a shared
 *  edge may be visited for both sides: depth decides, so it makes no difference. */
export function fillTriangle(
  [a, b, c]: FlatTriangle,
  { width, top, rows }: Band,
  visit: (cell: number, z: number) => void,
): void {
  const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  if (Math.abs(area) < 1e-9) return;
  const first = Math.max(top, Math.ceil(Math.min(a[1], b[1], c[1]) - 0.5));
  const last = Math.min(top + rows - 1, Math.floor(Math.max(a[1], b[1], c[1]) - 0.5));
  const dzdx = ((b[2] - a[2]) * (c[1] - a[1]) - (c[2] - a[2]) * (b[1] - a[1])) / area;
  const dzdy = ((c[2] - a[2]) * (b[0] - a[0]) - (b[2] - a[2]) * (c[0] - a[0])) / area;
  for (let row = first; row <= last; row++) {
    const y = row + 0.5;
    let [left, right] = [Infinity, -Infinity];
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      if (p[1] === q[1] || y < Math.min(p[1], q[1]) || y > Math.max(p[1], q[1])) continue;
      const x = p[0] + ((y - p[1]) * (q[0] - p[0])) / (q[1] - p[1]);
      left = Math.min(left, x);
      right = Math.max(right, x);
    }
    const start = Math.max(0, Math.ceil(left - 0.5));
    const end = Math.min(width - 1, Math.floor(right - 0.5));
    for (let column = start; column <= end; column++) {
      visit((row - top) * width + column, a[2] + dzdx * (column + 0.5 - a[0]) + dzdy * (y - a[1]));
    }
  }
}

/** Visits each grid cell of the band whose middle is within `radius` of the line from p to q: a stroke with round
 *  ends. */
export function fillStroke(
  p: readonly [number, number],
  q: readonly [number, number],
  radius: number,
  { width, top, rows }: Band,
  visit: (cell: number) => void,
): void {
  const first = Math.max(top, Math.ceil(Math.min(p[1], q[1]) - radius - 0.5));
  const last = Math.min(top + rows - 1, Math.floor(Math.max(p[1], q[1]) + radius - 0.5));
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const square = dx * dx + dy * dy;
  for (let row = first; row <= last; row++) {
    const y = row + 0.5 - p[1];
    // Where along the line it comes within reach of this row, which bounds the columns to look at.
    let [from, to] = [0, 1];
    if (Math.abs(dy) > 1e-9) {
      const [t, u] = [(y - radius) / dy, (y + radius) / dy];
      from = Math.max(0, Math.min(t, u));
      to = Math.min(1, Math.max(t, u));
    }
    const [x0, x1] = [p[0] + from * dx, p[0] + to * dx];
    const start = Math.max(0, Math.ceil(Math.min(x0, x1) - radius - 0.5));
    const end = Math.min(width - 1, Math.floor(Math.max(x0, x1) + radius - 0.5));
    for (let column = start; column <= end; column++) {
      const x = column + 0.5 - p[0];
      const t = square === 0 ? 0 : Math.max(0, Math.min(1, (x * dx + y * dy) / square));
      const [ex, ey] = [x - t * dx, y - t * dy];
      if (ex * ex + ey * ey <= radius * radius) visit((row - top) * width + column);
    }
  }
}
