import type { Vec3 } from '../../solid/vector.ts';
import { ON_EDGE } from './drawnEdges.ts';
import type { FacetedSolid } from './facetedSolid.ts';
import { listAt } from './listAt.ts';

/** A triangle that can hide what lies behind it. */
export interface Screen {
  readonly corners: readonly [Readonly<Vec3>, Readonly<Vec3>, Readonly<Vec3>];
  readonly normal: Readonly<Vec3>;
  /** Which of the solids, and which of its triangles. */
  readonly solid: number;
  readonly triangle: number;
}

/** Finds the triangles over a stretch of paper, so that not every ray meets every triangle. */
export class TriangleGrid {
  readonly #cells = new Map<number, Screen[]>();
  readonly #cell: number;
  /** Columns in a row of cell numbers; wider than any drawing has cells. */
  static readonly #ROW = 1 << 20;

  /** Triangles seen on edge hide nothing and are left out. */
  constructor(solids: readonly FacetedSolid[]) {
    const screens = solids.flatMap(({ points, triangles, normals }, solid) =>
      triangles.flatMap(([a, b, c], triangle): Screen[] =>
        Math.abs(normals[triangle]![2]) < ON_EDGE
          ? []
          : [{ corners: [points[a]!, points[b]!, points[c]!], normal: normals[triangle]!, solid, triangle }],
      ),
    );
    let reach = 1;
    for (const { corners } of screens)
      for (const p of corners) reach = Math.max(reach, Math.abs(p[0]), Math.abs(p[1]));
    this.#cell = reach / 32;
    for (const screen of screens) {
      const [a, b, c] = screen.corners;
      for (const key of this.#keys(
        Math.min(a[0], b[0], c[0]),
        Math.min(a[1], b[1], c[1]),
        Math.max(a[0], b[0], c[0]),
        Math.max(a[1], b[1], c[1]),
      )) {
        listAt(this.#cells, key).push(screen);
      }
    }
  }

  /** Triangles that may lie over the rectangle, each once. */
  over(x0: number, y0: number, x1: number, y1: number): Iterable<Screen> {
    const found = new Set<Screen>();
    for (const key of this.#keys(x0, y0, x1, y1))
      for (const screen of this.#cells.get(key) ?? []) found.add(screen);
    return found;
  }

  /** Triangles that may lie over the point. */
  at(x: number, y: number): readonly Screen[] {
    return this.#cells.get(this.#key(Math.floor(x / this.#cell), Math.floor(y / this.#cell))) ?? [];
  }

  #key(column: number, row: number): number {
    return row * TriangleGrid.#ROW + column;
  }

  /** Cells touched, with a hair of margin: a point on a border belongs to both sides. */
  *#keys(x0: number, y0: number, x1: number, y1: number): Generator<number> {
    const hair = 1e-6;
    const column = (x: number) => Math.floor(x / this.#cell);
    for (let row = column(y0 - hair); row <= column(y1 + hair); row++)
      for (let col = column(x0 - hair); col <= column(x1 + hair); col++) yield this.#key(col, row);
  }
}

/** How far before a point (towards the reader) the plane of a triangle lies over it, mm; null where the triangle is not over it.
 *  `slack` is the distance on paper by which the point may lie outside, mm. */
export function heightOver(screen: Screen, x: number, y: number, slack: number): number | null {
  const [a, b, c] = screen.corners;
  const n = screen.normal;
  const side = n[2] > 0 ? 1 : -1;
  for (const [p, q] of [
    [a, b],
    [b, c],
    [c, a],
  ] as const) {
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    if (side * (dx * (y - p[1]) - dy * (x - p[0])) < -slack * Math.hypot(dx, dy)) return null;
  }
  return a[2] - (n[0] * (x - a[0]) + n[1] * (y - a[1])) / n[2];
}
