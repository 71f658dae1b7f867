import type { Vec2 } from '../../solid/vector.ts';
import type { Segment } from '../drawing/index.ts';
import { listAt } from '../drawing/listAt.ts';

/** Lines to be asked whether one of them passes a point, so that not every point meets every line. */
export class LineIndex {
  readonly #cells = new Map<string, Segment[]>();
  readonly #cell: number;
  readonly #near: number;

  /** `near`: how far from a point a line may pass, mm. */
  constructor(lines: readonly Segment[], near: number) {
    const reach = Math.max(1, ...lines.flat().map(([x, y]) => Math.max(Math.abs(x!), Math.abs(y!))));
    this.#near = near;
    this.#cell = reach / 32;
    for (const line of lines) {
      const [[x0, y0], [x1, y1]] = line;
      for (let i = this.#at(Math.min(x0, x1) - near); i <= this.#at(Math.max(x0, x1) + near); i++)
        for (let j = this.#at(Math.min(y0, y1) - near); j <= this.#at(Math.max(y0, y1) + near); j++)
          listAt(this.#cells, `${i},${j}`).push(line);
    }
  }

  passes(p: Readonly<Vec2>): boolean {
    const over = this.#cells.get(`${this.#at(p[0])},${this.#at(p[1])}`) ?? [];
    return over.some((line) => distanceToLine(p, line) < this.#near);
  }

  #at(coordinate: number): number {
    return Math.floor(coordinate / this.#cell);
  }
}

/** Distance of a point from a line between its ends, mm. */
export function distanceToLine(p: Readonly<Vec2>, [a, b]: Segment): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
