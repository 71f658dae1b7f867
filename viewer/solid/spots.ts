import type { Finding, Verdict } from '../../src/check/finding.ts';
import { inverse, place } from '../../src/solid/placement.ts';
import type { Placement, Vec2, Vec3 } from '../../src/solid/vector.ts';

/** A finding with the number that its balloon bears. */
export interface Numbered {
  readonly number: number;
  readonly title: string;
  readonly verdict: Verdict;
}

/** A place of the part that findings are about. */
export interface Spot {
  /** Frame of the part, mm. */
  readonly at: Vec3;
  /** The gravest first, as they are listed. */
  readonly findings: readonly Numbered[];
}

/** Findings this near to each other share a balloon, mm. */
const SAME = 0.3;

/** The places of one part that findings are about. Their numbers are those of the list. `member` is the id of the part, empty when
 *  the job makes one. */
export function spotsOf(findings: readonly Finding[], member: string, onBed: Placement): readonly Spot[] {
  const back = inverse(onBed);
  const spots: { at: Vec3; findings: Numbered[] }[] = [];
  findings.forEach(({ id, title, verdict, at }, k) => {
    if (at === null || (member !== '' && !id.startsWith(`${member}.`))) return;
    const there = place(back, at);
    const one = { number: k + 1, title, verdict };
    const same = spots.find((spot) => Math.hypot(...spot.at.map((c, i) => c - there[i]!)) < SAME);
    if (same) same.findings.push(one);
    else spots.push({ at: there, findings: [one] });
  });
  return spots;
}

/** Where a spot lies on a part, in words: "top, front right"; "middle" in the middle of it. `low` and `high` are the corners of the
 *  box around the part.
 *  @example whereabouts([9, 0, 0], [0, 0, 0], [10, 10, 10]) // => 'bottom, front right' */
export function whereabouts(at: Readonly<Vec3>, low: Readonly<Vec3>, high: Readonly<Vec3>): string {
  const share = (k: number): number => (at[k]! - low[k]!) / (high[k]! - low[k]! || 1);
  const third = (k: number, least: string, most: string): string =>
    share(k) < 1 / 3 ? least : share(k) > 2 / 3 ? most : '';
  const level = [third(1, 'front', 'back'), third(0, 'left', 'right')].filter((word) => word !== '');
  const words = [third(2, 'bottom', 'top'), level.join(' ')].filter((word) => word !== '');
  return words.join(', ') || 'middle';
}

/** Where a balloon stands, in pixels, and the end of its line. */
export interface PlacedBalloon {
  readonly at: Vec2;
  readonly spot: Vec2;
}

/** Between balloons, and between them and the edge of the picture, pixels. */
const BETWEEN = 8;
const EDGE = 10;

/** Sets balloons in two columns beside the part, as on an assembly drawing: those of the left half of the spots to the
 *  left, level with their spots as far as there is room, so that lines cross as little as may be.
 *  `sizes`: width and height of each balloon, pixels; `picture`: width and height of the picture. */
export function placeBalloons(
  spots: readonly Readonly<Vec2>[],
  sizes: readonly Readonly<Vec2>[],
  picture: Readonly<Vec2>,
): readonly PlacedBalloon[] {
  const order = spots.map((_, k) => k).sort((i, j) => spots[i]![0] - spots[j]![0] || i - j);
  const half = Math.ceil(order.length / 2);
  const places: Vec2[] = spots.map(() => [0, 0]);
  for (const [side, column] of [order.slice(0, half), order.slice(half)].entries()) {
    const downwards = column.toSorted((i, j) => spots[i]![1] - spots[j]![1] || i - j);
    const heights = spacedOut(
      downwards.map((k) => ({ wanted: spots[k]![1], high: sizes[k]![1] + BETWEEN })),
      picture[1],
    );
    downwards.forEach((k, n) => {
      const across = EDGE + sizes[k]![0] / 2;
      places[k] = [side === 0 ? across : picture[0] - across, heights[n]!];
    });
  }
  return places.map((at, k) => ({ at, spot: [...spots[k]!] as Vec2 }));
}

/** Middles of things in a column from 0 to `room`, in their order, each as near to where it is wanted as those above and
 *  below let it. In a column too short for them they stand closer. */
function spacedOut(things: readonly { wanted: number; high: number }[], room: number): number[] {
  const whole = things.reduce((sum, { high }) => sum + high, 0);
  const share = Math.min(1, room / (whole || 1));
  const middles: number[] = [];
  let below = 0;
  for (const { wanted, high } of things) {
    const middle = Math.max(wanted, below + (share * high) / 2);
    middles.push(middle);
    below = middle + (share * high) / 2;
  }
  let above = room;
  for (let n = things.length - 1; n >= 0; n--) {
    const half = (share * things[n]!.high) / 2;
    middles[n] = Math.min(middles[n]!, above - half);
    above = middles[n]! - half;
  }
  return middles;
}
