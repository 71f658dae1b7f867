import type { View } from '../../src/output/drawing/index.ts';
import type { Vec2, Vec3 } from '../../src/solid/vector.ts';

/** What a picture is taken of: directions, the middle of it in the frame of the part, and how many pixels a mm is. */
export interface Sight {
  readonly view: View;
  readonly target: Readonly<Vec3>;
  readonly scale: number;
}

/** Where a point of the part's frame is in the picture, pixels from its top left. */
export const onPicture = (
  { view, target, scale }: Sight,
  [width, height]: Readonly<Vec2>,
  p: Readonly<Vec3>,
): Vec2 => {
  const off = [0, 1, 2].map((k) => p[k]! - target[k]!) as Vec3;
  const along = (way: Readonly<Vec3>): number => way[0] * off[0] + way[1] * off[1] + way[2] * off[2];
  return [width / 2 + scale * along(view.right), height / 2 - scale * along(view.up)];
};
