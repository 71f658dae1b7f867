import { dot, type Vec2 } from '../../solid/vector.ts';
import { project, type Segment } from '../drawing/index.ts';
import { LineIndex } from './lineIndex.ts';
import type { RoundFound } from './partDrawingInput.ts';
import type { SeenView } from './seenView.ts';

/** How far a centre line reaches past what it is the centre of, mm on paper. */
const PAST = 3;
/** Sine of the angle up to which an axis counts as lying in the paper, or as pointing out of it. */
const LEAN = 0.01;
/** Mirrored lines this near to lines are the same, and centre lines this near to each other one, mm at 1:1. */
const SAME = 0.03;

/** Centre lines of a view enlarged by `scale`, mm on paper: along the axis of everything round, a cross where it is seen along its
 *  axis, and where the view is its own mirror image (ISO 128-2:2020, line type 04.1). */
export function centreLines(seen: SeenView, rounds: readonly RoundFound[], scale: number): Segment[] {
  const past = PAST / scale;
  const lines = [...rounds.flatMap((round) => ofRound(round, seen, past)), ...mirrorLines(seen, past)];
  return merged(lines).map(([p, q]) => [
    [p[0] * scale, p[1] * scale],
    [q[0] * scale, q[1] * scale],
  ]);
}

function ofRound({ axis, at, diameter, length }: RoundFound, { view }: SeenView, past: number): Segment[] {
  const [x, y] = project(view, at);
  const lean = Math.abs(dot(axis, view.toward));
  if (lean > 1 - LEAN) {
    const reach = diameter / 2 + past;
    return [
      [
        [x - reach, y],
        [x + reach, y],
      ],
      [
        [x, y - reach],
        [x, y + reach],
      ],
    ];
  }
  if (lean > LEAN) return [];
  const [c, s] = project(view, axis);
  const reach = length / 2 + past;
  return [
    [
      [x - c * reach, y - s * reach],
      [x + c * reach, y + s * reach],
    ],
  ];
}

/** Upright and level lines about which the view is its own mirror image. */
function mirrorLines({ visible, hidden, box: { min, max } }: SeenView, past: number): Segment[] {
  const [x, y] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  const pointsOf = ([p, q]: Segment): Vec2[] => [[...p], [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], [...q]];
  const [seen, all] = [new LineIndex(visible, SAME), new LineIndex([...visible, ...hidden], SAME)];
  const alike = (mirror: (p: Readonly<Vec2>) => Vec2): boolean =>
    visible.every((line) => pointsOf(line).every((p) => seen.passes(mirror(p)))) &&
    hidden.every((line) => pointsOf(line).every((p) => all.passes(mirror(p))));
  const lines: Segment[] = [];
  if (alike(([u, v]) => [2 * x - u, v]))
    lines.push([
      [x, min[1] - past],
      [x, max[1] + past],
    ]);
  if (alike(([u, v]) => [u, 2 * y - v]))
    lines.push([
      [min[0] - past, y],
      [max[0] + past, y],
    ]);
  return lines;
}

/** Joins those that lie in one line and meet. */
function merged(lines: readonly Segment[]): Segment[] {
  const out: { along: Vec2; level: number; from: number; to: number }[] = [];
  for (const [p, q] of lines) {
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    let along: Vec2 = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
    if (along[0] < -1e-9 || (Math.abs(along[0]) <= 1e-9 && along[1] < 0)) along = [-along[0], -along[1]];
    const level = p[1] * along[0] - p[0] * along[1];
    const ends = [p, q].map((r) => r[0] * along[0] + r[1] * along[1]);
    let own = { along, level, from: Math.min(...ends), to: Math.max(...ends) };
    for (;;) {
      const k = out.findIndex(
        (other) =>
          other.along[0] * along[0] + other.along[1] * along[1] > 1 - 1e-6 &&
          Math.abs(other.level - level) < SAME &&
          other.from <= own.to &&
          own.from <= other.to,
      );
      if (k < 0) break;
      const [other] = out.splice(k, 1);
      own = { ...own, from: Math.min(own.from, other!.from), to: Math.max(own.to, other!.to) };
    }
    out.push(own);
  }
  return out.map(({ along: [c, s], level, from, to }) => [
    [from * c - level * s, from * s + level * c],
    [to * c - level * s, to * s + level * c],
  ]);
}
