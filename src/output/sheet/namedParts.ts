import type { Vec2 } from '../../solid/vector.ts';
import { type Box, boxAround, disc, lineType, type Segment, strokes, text } from '../drawing/index.ts';
import { extentOf, type SeenParts } from './glassMachine.ts';

const HEIGHT = 2.5;
/** Average advance of a letter in the usual faces, in capital heights. */
const ADVANCE = 0.8;
/** From the drawing to the names, and between their lines, mm. */
const ASIDE = 7;
const LINE = 5.5;

/** Names with leader lines (ISO 128-2, 4.2) to the right of a drawing, in the order of the points they lead to,
 *  so that leaders do not cross. A leader ends in a dot on a visible line of what it names. */
export function namedParts(seen: SeenParts): { svg: string[]; box: Box } {
  const { part, partRegion, hosts } = seen;
  const box = extentOf(seen);
  const named = [
    { name: 'part', lines: part, over: [] },
    ...hosts.map((host) => ({ ...host, over: partRegion })),
  ]
    .flatMap(({ name, lines, over }) => {
      const at = foremost([...lines.visible, ...lines.hidden], box, over);
      return at ? [{ name, at }] : [];
    })
    .sort((a, b) => b.at[1] - a.at[1] || a.at[0] - b.at[0]);
  const x = box.max[0] + ASIDE;
  const levels = spread(named.map(({ at }) => at[1]));
  const svg: string[] = [];
  const corners: Readonly<Vec2>[] = [box.min, box.max];
  named.forEach(({ name, at }, k) => {
    const end: Vec2 = [x, levels[k]!];
    svg.push(
      strokes([[at, [x - 3, end[1]], end]], lineType.dimensionLine, 'dimension'),
      disc(at, 0.5, 'arrow'),
    );
    svg.push(text([x + 1, end[1]], name, { height: HEIGHT, anchor: 'start', mark: 'words' }));
    corners.push([x + 1 + name.length * ADVANCE * HEIGHT, end[1] + HEIGHT], [x, end[1] - HEIGHT]);
  });
  return { svg, box: boxAround(corners) };
}

/** Heights a line apart, descending, as near to the wished ones as they can be: names that would overlap share
 *  their middle (isotonic regression by pooling neighbours). */
function spread(wished: readonly number[]): number[] {
  const pools: { sum: number; count: number }[] = [];
  wished.forEach((height, k) => {
    pools.push({ sum: height + k * LINE, count: 1 });
    for (;;) {
      const [above, below] = [pools.at(-2), pools.at(-1)!];
      if (!above || above.sum / above.count >= below.sum / below.count) break;
      pools.pop();
      above.sum += below.sum;
      above.count += below.count;
    }
  });
  return pools
    .flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count))
    .map((y, k) => y - k * LINE);
}

/** A point on the lines that a leader from the right reaches without crossing much of the drawing: the middle of a
 *  line far to the right, but not on the rim where things are cut off, nor over the part. */
function foremost(segments: readonly Segment[], box: Box, over: readonly Points[]): Vec2 | null {
  let best: { at: Vec2; merit: number } | null = null;
  for (const [p, q] of segments) {
    const at: Vec2 = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const rim = Math.min(at[0] - box.min[0], box.max[0] - at[0], at[1] - box.min[1], box.max[1] - at[1]);
    const merit =
      at[0] +
      2 * Math.min(length, 8) -
      (rim < 3 ? 20 : 0) -
      (covers(over, at) ? 30 : 0) -
      15 * shareOver(over, at, box.max[0]);
    if (!best || merit > best.merit + 1e-9) best = { at, merit };
  }
  return best?.at ?? null;
}

/** How much of a level leader from the point to the right would run over the part, 0..1. */
function shareOver(over: readonly Points[], [x, y]: Readonly<Vec2>, right: number): number {
  const steps = 12;
  let inside = 0;
  for (let k = 1; k <= steps; k++) if (covers(over, [x + ((right - x) * k) / steps, y])) inside++;
  return inside / steps;
}

type Points = readonly Readonly<Vec2>[];

/** Whether contours wind around a point (non-zero rule). */
function covers(contours: readonly Points[], [x, y]: Readonly<Vec2>): boolean {
  let winding = 0;
  for (const contour of contours) {
    contour.forEach((q, k) => {
      const p = contour.at(k - 1)!;
      const left = (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]);
      if (p[1] <= y && q[1] > y && left > 0) winding++;
      if (p[1] > y && q[1] <= y && left < 0) winding--;
    });
  }
  return winding !== 0;
}
