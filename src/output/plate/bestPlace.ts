import type { CrossSection } from '../../solid/kernel.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import type { Pose } from './pose.ts';
import type { UsedBox } from './usedBox.ts';
import type { Way } from './way.ts';

/** The best place in a region; the front one of equals, and the left one of those. */
export function bestPlace(
  free: CrossSection,
  { size }: Pose,
  aim: Way['aim'],
  middle: Readonly<Vec2>,
  used: UsedBox,
): { readonly at: Vec2; readonly score: number } | null {
  if (free.isEmpty()) return null;
  const target: Vec2 = [middle[0] - size[0] / 2, middle[1] - size[1] / 2];
  const away = ([x, y]: Readonly<Vec2>): number => (x - target[0]) ** 2 + (y - target[1]) ** 2;
  const score =
    aim === 'middle of the bed'
      ? away
      : (p: Readonly<Vec2>) => used.areaWith(p, size) + 1e-3 * (p[1] + 1e-3 * p[0]);
  const contours = free.toPolygons() as Contour[];
  const places = candidates(contours, target);
  let best: { at: Vec2; score: number } | null = null;
  for (const at of places) {
    const found = score(at);
    const better =
      best === null ||
      found < best.score - 1e-6 ||
      (found < best.score + 1e-6 &&
        (at[1] < best.at[1] - 1e-6 || (at[1] < best.at[1] + 1e-6 && at[0] < best.at[0] - 1e-6)));
    if (better) best = { at, score: found };
  }
  return best;
}

/** Corners of the region, the point of each side next to `target`, and `target` itself where it is free. */
function candidates(contours: readonly Contour[], target: Readonly<Vec2>): Vec2[] {
  const places: Vec2[] = [];
  let inside = false;
  for (const contour of contours) {
    let [ax, ay] = contour.at(-1)!;
    for (const [bx, by] of contour) {
      places.push([bx, by]);
      const [dx, dy] = [bx - ax, by - ay];
      const t = ((target[0] - ax) * dx + (target[1] - ay) * dy) / (dx * dx + dy * dy);
      if (t > 0 && t < 1) places.push([ax + t * dx, ay + t * dy]);
      if (ay > target[1] !== by > target[1] && target[0] < ax + ((target[1] - ay) / (by - ay)) * dx)
        inside = !inside;
      [ax, ay] = [bx, by];
    }
  }
  if (inside) places.push([...target]);
  return places;
}
