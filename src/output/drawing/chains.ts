import type { Vec2 } from '../../solid/vector.ts';
import { listAt } from './listAt.ts';
import type { Segment } from './view.ts';

/** Ends closer than this meet, mm. */
const MEET = 4e-3;

/** Strings segments that meet end to end into polylines, so that dashes run on around curves and corners are
 *  joined. Where more than two meet, the straightest continuation is taken. A closed one ends where it starts. */
export function chains(segments: readonly Segment[]): Vec2[][] {
  const ends = new EndIndex(segments);
  const used = new Array<boolean>(segments.length).fill(false);
  const out: Vec2[][] = [];
  segments.forEach((segment, start) => {
    if (used[start]) return;
    used[start] = true;
    const line: Vec2[] = [[...segment[0]], [...segment[1]]];
    for (let next = ends.next(line, used); next; next = ends.next(line, used)) line.push(next);
    line.reverse();
    for (let next = ends.next(line, used); next; next = ends.next(line, used)) line.push(next);
    out.push(line);
  });
  return out;
}

class EndIndex {
  readonly #at = new Map<string, { segment: number; far: Readonly<Vec2>; near: Readonly<Vec2> }[]>();

  constructor(segments: readonly Segment[]) {
    segments.forEach(([p, q], segment) => {
      for (const [near, far] of [
        [p, q],
        [q, p],
      ] as const) {
        const key = keyOf(near[0], near[1]);
        listAt(this.#at, key).push({ segment, near, far });
      }
    });
  }

  /** The point that continues the line, its segment marked as used; undefined at a free end. */
  next(line: readonly Vec2[], used: boolean[]): Vec2 | undefined {
    const end = line.at(-1)!;
    const before = line.at(-2)!;
    let best: { segment: number; far: Readonly<Vec2> } | undefined;
    let straightest = -Infinity;
    for (const candidate of this.#around(end)) {
      const { near, far } = candidate;
      if (used[candidate.segment] || Math.hypot(near[0] - end[0], near[1] - end[1]) > MEET) continue;
      const straight = cosine(before, end, far);
      if (straight > straightest) [best, straightest] = [candidate, straight];
    }
    if (!best) return undefined;
    used[best.segment] = true;
    return [...best.far];
  }

  *#around([x, y]: Readonly<Vec2>) {
    for (let dx = -1; dx <= 1; dx++)
      for (let dy = -1; dy <= 1; dy++) yield* this.#at.get(keyOf(x + dx * MEET, y + dy * MEET)) ?? [];
  }
}

const keyOf = (x: number, y: number): string => `${Math.floor(x / MEET)},${Math.floor(y / MEET)}`;

function cosine(a: Readonly<Vec2>, b: Readonly<Vec2>, c: Readonly<Vec2>): number {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return (ux * vx + uy * vy) / (Math.hypot(ux, uy) * Math.hypot(vx, vy));
}
