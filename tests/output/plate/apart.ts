// Distance of two outlines by arithmetic of its own, and overlap by polygon-clipping, for layouts to be held against.
import polygonClipping, { type MultiPolygon, type Ring } from 'polygon-clipping';
import type { PlateItem, PlatePlacement } from '../../../src/output/plate/index.ts';

type Point = readonly [number, number];
export type Outline = readonly (readonly Point[])[];

/** Where a copy stands: turned by sine and cosine, then its box moved to the corner. */
export function standing(items: readonly PlateItem[], { item, turn, x, y }: PlatePlacement): Outline {
  const angle = (turn * Math.PI) / 180;
  const turned = items[item]!.outline.map((contour) =>
    contour.map(
      ([u, v]): Point => [
        u * Math.cos(angle) - v * Math.sin(angle),
        u * Math.sin(angle) + v * Math.cos(angle),
      ],
    ),
  );
  const { left, front } = extent(turned);
  return turned.map((contour) => contour.map(([u, v]): Point => [u - left + x, v - front + y]));
}

export function extent(outline: Outline): Record<'left' | 'right' | 'front' | 'back', number> {
  const all = outline.flat();
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), front: Math.min(...ys), back: Math.max(...ys) };
}

const multi = (outline: Outline): MultiPolygon =>
  outline.map((contour) => [contour.map(([x, y]): [number, number] => [x, y]) as Ring]);

/** Least distance between two outlines that do not overlap; 0 where they do. */
export function apart(a: Outline, b: Outline): number {
  if (polygonClipping.intersection(multi(a), multi(b)).length > 0) return 0;
  return Math.min(fromCorners(a, b), fromCorners(b, a));
}

/** Least distance from a corner of the one to a side of the other: where sides do not cross, no pair of points is nearer. */
function fromCorners(corners: Outline, sides: Outline): number {
  let least = Infinity;
  for (const [px, py] of corners.flat())
    for (const contour of sides)
      contour.forEach(([ax, ay], k) => {
        const [bx, by] = contour[(k + 1) % contour.length]!;
        const [ux, uy] = [bx - ax, by - ay];
        const along = Math.max(0, Math.min(1, ((px - ax) * ux + (py - ay) * uy) / (ux * ux + uy * uy || 1)));
        least = Math.min(least, Math.hypot(px - ax - along * ux, py - ay - along * uy));
      });
  return least;
}

/** Area by the shoelace formula. */
export const areaOf = (outline: Outline): number =>
  outline.reduce(
    (sum, contour) =>
      sum +
      contour.reduce((part, [ax, ay], k) => {
        const [bx, by] = contour[(k + 1) % contour.length]!;
        return part + (ax * by - bx * ay) / 2;
      }, 0),
    0,
  );
