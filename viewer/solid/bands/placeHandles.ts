import type { Vec2 } from '../../../src/solid/vector.ts';

/** Where a handle stands, and the place of the part that it holds; pixels. */
export interface PlacedHandle {
  readonly at: Vec2;
  readonly spot: Vec2;
}

/** Handles are that far apart at least, so that a thumb takes the one it means (WCAG 2.5.5 asks for 44), pixels. */
const APART = 46;
/** From the part to the middle of its handle, pixels. */
const OUT = 34;
/** From the middle of a handle to the edge of the picture, pixels. */
const EDGE = 26;

/** Stands handles beside the ends of the stretches that they pull: below or right of the part as far as there is room, else on its
 *  other side, in the order of the stretches and each as near to its own end as the others let it.
 *  `ends`: the outline of the part around each end, in the picture; `along`: unit vector up the axis; `size`: of the picture. */
export function placeHandles(
  ends: readonly (readonly Readonly<Vec2>[])[],
  along: Readonly<Vec2>,
  size: Readonly<Vec2>,
): readonly PlacedHandle[] {
  const out = belowOf(along);
  const spots = ends.map((outline) => [1, -1].map((side) => farthest(outline, out, side)) as [Vec2, Vec2]);
  const level = (p: Readonly<Vec2>): number => dot(p, along);
  const order = ends.map((_, k) => k).sort((a, b) => level(spots[a]![0]) - level(spots[b]![0]) || a - b);
  const last = [-Infinity, -Infinity];
  const sides: number[][] = [[], []];
  for (const k of order) {
    const room = [0, 1].map((side) => level(spots[k]![side]!) - last[side]!);
    const side = room[0]! >= APART || room[0]! >= room[1]! ? 0 : 1;
    last[side] = Math.max(level(spots[k]![side]!), last[side]! + APART);
    sides[side]!.push(k);
  }
  const placed: PlacedHandle[] = [];
  sides.forEach((column, side) => {
    const lines = column.map((k) => {
      const spot = spots[k]![side]!;
      const off = dot(spot, out) + (side === 0 ? OUT : -OUT);
      return { k, spot, off, wanted: level(spot), ...reach(out, off, along, size) };
    });
    const levels = spacedOut(lines);
    lines.forEach(({ k, spot, off }, n) => {
      const free: Vec2 = [off * out[0] + levels[n]! * along[0], off * out[1] + levels[n]! * along[1]];
      placed[k] = { spot, at: inPicture(free, size) };
    });
  });
  return placed;
}

/** Across the axis, downwards; to the right where the axis stands upright. */
export const belowOf = ([x, y]: Readonly<Vec2>): Vec2 =>
  x > 1e-6 || (Math.abs(x) <= 1e-6 && y < 0) ? [-y, x] : [y, -x];

const dot = (a: Readonly<Vec2>, b: Readonly<Vec2>): number => a[0] * b[0] + a[1] * b[1];

/** The nearest place where a handle is wholly in the picture. */
export const inPicture = ([x, y]: Readonly<Vec2>, [width, height]: Readonly<Vec2>): Vec2 => [
  within(x, width),
  within(y, height),
];

const within = (value: number, room: number): number => Math.min(room - EDGE, Math.max(EDGE, value));

const farthest = (outline: readonly Readonly<Vec2>[], out: Vec2, side: number): Vec2 => {
  const best = outline.reduce((far, p) => (side * (dot(p, out) - dot(far, out)) > 1e-6 ? p : far));
  return [...best] as Vec2;
};

/** From which level to which a handle that stands `off` from the axis is in the picture. */
function reach(
  out: Readonly<Vec2>,
  off: number,
  along: Readonly<Vec2>,
  size: Readonly<Vec2>,
): { readonly low: number; readonly high: number } {
  let [low, high] = [-Infinity, Infinity];
  for (const c of [0, 1] as const) {
    if (Math.abs(along[c]) < 1e-3) continue;
    const [a, b] = [EDGE, size[c] - EDGE].map((edge) => (edge - off * out[c]) / along[c]);
    low = Math.max(low, Math.min(a!, b!));
    high = Math.min(high, Math.max(a!, b!));
  }
  return { low, high };
}

/** Levels in their order, each as near to what is wanted as those beside it and the picture let it. */
function spacedOut(
  lines: readonly { readonly wanted: number; readonly low: number; readonly high: number }[],
): number[] {
  const levels: number[] = [];
  for (const { wanted, low } of lines)
    levels.push(Math.max(wanted, low, (levels.at(-1) ?? -Infinity) + APART));
  for (let n = lines.length - 1; n >= 0; n--)
    levels[n] = Math.min(levels[n]!, lines[n]!.high, (levels[n + 1] ?? Infinity) - APART);
  return levels;
}
