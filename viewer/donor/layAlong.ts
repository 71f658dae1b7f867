import { type LevelMap, levelMap, type TakeUp } from '../../src/donor/respace/levelMap.ts';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import type { Segment } from '../../src/output/drawing/index.ts';
import type { Vec2 } from '../../src/solid/vector.ts';
import { formatNumber } from '../../src/units/index.ts';
import { type Draft, sharers } from './refitDesk.ts';

/** Where a part lying along an axis stands on the screen. */
export interface Lay {
  /** Pixels a mm. */
  readonly scale: number;
  /** Level at which the part begins, and where that is, pixels. */
  readonly low: number;
  readonly left: number;
  readonly height: number;
}

/** Pixels left of the part for an arrow. */
const BEFORE = 16;
const TALLEST = 300;

/** Pixels right of a stretch for its handle with a figure, of lengths up to that, mm. */
export const behindFor = (long: number): number => Math.max(92, 40 + 10.5 * formatNumber(long).length);

/** Lays a part out on a picture `width` pixels wide: as large as it goes, with room to become a little longer; smaller where it
 *  is being pulled so `long`, mm, that it would run out of the picture. */
export function layAlong(
  { picture, axes, shown }: Pick<RefitSheet, 'picture' | 'axes' | 'shown'>,
  width: number,
  long = axes[shown]!.now,
): Lay {
  const { now, low } = axes[shown]!;
  const behind = behindFor(now);
  const high = picture.high - picture.low;
  const whole = Math.min((width - BEFORE - behind) / (1.08 * now), TALLEST / high);
  const left = BEFORE + (width - BEFORE - behind - now * whole) / 2;
  // The low end stays where it was.
  const scale = Math.min(whole, (width - behindFor(Math.max(now, long)) - left) / long);
  return { scale, low, left, height: high * scale };
}

/** What becomes longer or shorter while somebody is at a stretch: it and its mirror image. */
export function draftTakeUps(
  sheet: Pick<RefitSheet, 'spans'>,
  { span: index, by }: Draft,
): readonly TakeUp[] {
  const span = sheet.spans[index];
  if (!span || by === 0) return [];
  const both = sharers(sheet, index) === 2 ? [span, sheet.spans[span.partner!]!] : [span];
  return both.map(({ from, to }) => ({ from, to, by }));
}

/** How levels move while somebody is at a stretch; undefined where nothing is moved. `stays` is a level that does not;
 *  everything below by default. */
export function draftMap(
  sheet: Pick<RefitSheet, 'spans'>,
  draft: Draft | null,
  stays?: number,
): LevelMap | undefined {
  const takeUps = draft ? draftTakeUps(sheet, draft) : [];
  return takeUps.length > 0 ? levelMap(takeUps, stays) : undefined;
}

/** Lines with their levels moved. A line over the end of a stretch is broken there. */
export function movedLines(lines: readonly Segment[], map: LevelMap | undefined): readonly Segment[] {
  if (!map) return lines;
  const moved = ([x, y]: Readonly<Vec2>): Vec2 => [x + map.shift(x), y];
  return lines.flatMap(([p, q]): Segment[] => {
    const [low, high] = [Math.min(p[0], q[0]), Math.max(p[0], q[0])];
    const inside = [...map.breaks].filter((level) => level > low && level < high);
    if (inside.length === 0) return [[moved(p), moved(q)]];
    const at = (level: number): Vec2 => [level, p[1] + ((level - p[0]) / (q[0] - p[0])) * (q[1] - p[1])];
    const order = p[0] <= q[0] ? inside : inside.reverse();
    const points = [p, ...order.map(at), q];
    return points.slice(1).map((end, k): Segment => [moved(points[k]!), moved(end)]);
  });
}

/** Rows in which dimension lines stand beneath a part, so that none lies over another: the row of each, in order.
 *  @example rowsFor([{ from: 0, to: 10 }, { from: 5, to: 15 }]) // => [0, 1] */
export function rowsFor(
  places: readonly { readonly from: number; readonly to: number }[],
): readonly number[] {
  const ends: number[] = [];
  return places.map(({ from, to }) => {
    const free = ends.findIndex((end) => end <= from);
    const row = free < 0 ? ends.length : free;
    ends[row] = to;
    return row;
  });
}

/** Marks of a rule from a level on, `long` mm long: one each so many mm, no closer than 6 pixels; long ones have a number, no
 *  closer than 44. Levels are the part's own, so that they are those of every text about it. */
export function ruleMarks(
  from: number,
  long: number,
  scale: number,
): readonly { readonly mm: number; readonly isLong: boolean }[] {
  const fine = [0.1, 0.5, 1, 5, 10, 50, 100, 500, 1000];
  const step = fine.find((mm) => mm * scale >= 6) ?? 1000;
  const round = [0.5, 1, 5, 10, 20, 50, 100, 200, 500, 1000];
  const far = round.find((mm) => mm >= 2 * step && mm * scale >= 44) ?? 5000;
  const first = Math.ceil(from / step - 1e-6);
  const last = Math.floor((from + long) / step + 1e-6);
  return Array.from({ length: last - first + 1 }, (_, k) => {
    const mm = Number(((first + k) * step).toFixed(3));
    return { mm, isLong: Math.abs(mm - Math.round(mm / far) * far) < 1e-6 };
  });
}

/** The longest change that a handle makes at once, and its steps, mm. */
export const steps = { fine: 0.1, coarse: 1 } as const;

/** By how much a stretch changes when its handle is drawn to `by`: in tenths, and never shorter than it can be. */
export const heldBy = (by: number, available: number): number =>
  Math.max(
    -Math.floor(available * 100 + 1e-6) / 100,
    Number((Math.round(by / steps.fine) * steps.fine).toFixed(2)),
  );
