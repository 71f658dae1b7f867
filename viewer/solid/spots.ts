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

/** Distance of a balloon from its spot, pixels. */
const AWAY = 52;
const BETWEEN = 6;
const ROUNDS = 24;

/** Sets balloons beside their spots, away from the middle of the part, none over another and all within the picture.
 *  `sizes`: width and height of each, pixels; `picture`: width and height of the picture; `middle`: the part's on it. */
export function placeBalloons(
  spots: readonly Readonly<Vec2>[],
  sizes: readonly Readonly<Vec2>[],
  middle: Readonly<Vec2>,
  picture: Readonly<Vec2>,
): readonly PlacedBalloon[] {
  const places = spots.map(([x, y], k): Vec2 => {
    const [dx, dy] = [x - middle[0], y - middle[1]];
    const off = Math.hypot(dx, dy);
    // Spots in the middle go out in turn, so that they do not all go the same way.
    const angle = off < 4 ? -Math.PI / 2 + 2.4 * k : Math.atan2(dy, dx);
    return [x + AWAY * Math.cos(angle), y + AWAY * Math.sin(angle)];
  });
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    for (let i = 0; i < places.length; i++) {
      for (let j = i + 1; j < places.length; j++) {
        const [p, q] = [places[i]!, places[j]!];
        const wide = (sizes[i]![0] + sizes[j]![0]) / 2 + BETWEEN - Math.abs(p[0] - q[0]);
        const high = (sizes[i]![1] + sizes[j]![1]) / 2 + BETWEEN - Math.abs(p[1] - q[1]);
        if (wide <= 0 || high <= 0) continue;
        moved = true;
        const k = wide < high ? 0 : 1;
        const sense = p[k]! < q[k]! || (p[k] === q[k] && i < j) ? 1 : -1;
        const by = (sense * Math.min(wide, high)) / 2;
        p[k]! -= by;
        q[k]! += by;
      }
    }
    places.forEach((p, k) => {
      for (const c of [0, 1] as const) {
        const edge = sizes[k]![c] / 2 + 2;
        p[c] = Math.min(Math.max(p[c], edge), Math.max(edge, picture[c] - edge));
      }
    });
    if (!moved) break;
  }
  return places.map((at, k) => ({ at, spot: [...spots[k]!] as Vec2 }));
}
