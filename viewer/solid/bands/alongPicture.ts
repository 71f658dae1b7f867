import type { RefitSheet } from '../../../src/job/refitSheet.ts';
import { dot, type Vec2, type Vec3 } from '../../../src/solid/vector.ts';
import type { Sight } from '../sight.ts';

/** How an axis of the part lies in the picture. */
export interface AlongPicture {
  /** Unit vector up the axis, pixels to the right and down; upwards where it points at the reader. */
  readonly along: Vec2;
  /** Pixels a mm of the axis is long. */
  readonly perMm: number;
  /** It points at the reader, or nearly so, and its stretches cannot be seen. */
  readonly isEndOn: boolean;
}

/** Whether nothing of the stretches of a model is seen out of there. */
export const isEndOn = (sight: Sight | null, { axes, shown }: Pick<RefitSheet, 'axes' | 'shown'>): boolean =>
  sight !== null && alongPicture(sight, axes[shown]!.axis).isEndOn;

/** Shortened to less than this share, a stretch can no longer be pulled by sight. */
const END_ON = 0.2;

export function alongPicture({ view, scale }: Sight, axis: Readonly<Vec3>): AlongPicture {
  const seen: Vec2 = [dot(axis, view.right), -dot(axis, view.up)];
  const share = Math.hypot(...seen);
  return share < END_ON
    ? { along: [0, -1], perMm: scale, isEndOn: true }
    : { along: [seen[0] / share, seen[1] / share], perMm: share * scale, isEndOn: false };
}
