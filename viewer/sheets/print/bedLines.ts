import type { BedFacts } from '../../spine/tasks/plate.ts';

/** A window on the bed, mm, y up: left, front, width and depth. */
export type BedWindow = readonly [number, number, number, number];

/** Space left around what is looked at, as a share of it, and at least, mm. */
const AROUND = 0.12;
const LEAST = 4;
/** The parts are shown once more, larger, where they take less than this share of the bed's width. */
const SMALL = 0.5;

/** The part of the bed where the parts stand, or null where they fill it well enough to be seen as it is. The window is as
 *  wide over deep as the bed. */
export function closeWindow({ bed, standing }: Pick<BedFacts, 'bed' | 'standing'>): BedWindow | null {
  const points = standing.flatMap(({ contours }) => contours.flat());
  if (points.length === 0) return null;
  const [left, right] = [Math.min(...points.map(([x]) => x)), Math.max(...points.map(([x]) => x))];
  const [front, back] = [Math.min(...points.map(([, y]) => y)), Math.max(...points.map(([, y]) => y))];
  const around = Math.max(LEAST, AROUND * Math.max(right - left, back - front));
  const ratio = bed.x / bed.y;
  const width = Math.max(right - left + 2 * around, ratio * (back - front + 2 * around));
  if (width > SMALL * bed.x) return null;
  return [(left + right - width) / 2, (front + back - width / ratio) / 2, width, width / ratio];
}

/** Closed outlines as SVG path data, y down, for a window on the bed. */
export const outlineData = (
  contours: readonly (readonly (readonly [number, number] | readonly number[])[])[],
  [left, front, , deep]: BedWindow,
): string =>
  contours
    .map(
      (contour) =>
        `M${contour.map(([x, y]) => `${(x! - left).toFixed(3)} ${(front + deep - y!).toFixed(3)}`).join('L')}Z`,
    )
    .join('');
