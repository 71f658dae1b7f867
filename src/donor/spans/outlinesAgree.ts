import { squareToPiece } from './outlineStep.ts';
import type { Outline } from './section.ts';

/** Cells along the longer side of what is compared. */
const CELLS = 64;

/** Whether every piece of each outline, its ends and its middle, lies within `apart` of the other one. */
export function outlinesAgree(a: Outline, b: Outline, apart: number): boolean {
  if (a.length === 0 || b.length === 0) return a.length === b.length;
  return liesOn(a, b, apart) && liesOn(b, a, apart);
}

function liesOn(points: Outline, outline: Outline, apart: number): boolean {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k < outline.length; k += 2) {
    west = Math.min(west, outline[k]!);
    east = Math.max(east, outline[k]!);
    south = Math.min(south, outline[k + 1]!);
    north = Math.max(north, outline[k + 1]!);
  }
  const cell = Math.max(apart, Math.max(east - west, north - south) / CELLS);
  const columns = Math.floor((east - west) / cell) + 1;
  const rows = Math.floor((north - south) / cell) + 1;
  const clamp = (value: number, count: number): number => Math.max(0, Math.min(count - 1, Math.floor(value)));
  const cells = new Map<number, number[]>();
  for (let k = 0; k < outline.length; k += 4) {
    const [x, y, p, q] = [outline[k]!, outline[k + 1]!, outline[k + 2]!, outline[k + 3]!];
    const [c0, c1] = [
      clamp((Math.min(x, p) - west) / cell, columns),
      clamp((Math.max(x, p) - west) / cell, columns),
    ];
    const [r0, r1] = [
      clamp((Math.min(y, q) - south) / cell, rows),
      clamp((Math.max(y, q) - south) / cell, rows),
    ];
    for (let r = r0; r <= r1; r++)
      for (let c = c0; c <= c1; c++) {
        const list = cells.get(r * columns + c);
        if (list) list.push(k);
        else cells.set(r * columns + c, [k]);
      }
  }
  const near = (x: number, y: number): boolean => {
    if (x < west - apart || x > east + apart || y < south - apart || y > north + apart) return false;
    const [c0, c1] = [clamp((x - apart - west) / cell, columns), clamp((x + apart - west) / cell, columns)];
    const [r0, r1] = [clamp((y - apart - south) / cell, rows), clamp((y + apart - south) / cell, rows)];
    for (let r = r0; r <= r1; r++)
      for (let c = c0; c <= c1; c++)
        for (const k of cells.get(r * columns + c) ?? [])
          if (squareToPiece(outline, k, x, y) <= apart * apart) return true;
    return false;
  };
  for (let k = 0; k < points.length; k += 4) {
    const [x, y, p, q] = [points[k]!, points[k + 1]!, points[k + 2]!, points[k + 3]!];
    if (!near(x, y) || !near((x + p) / 2, (y + q) / 2)) return false;
  }
  return true;
}
