import { cylinder, hull, prism } from '../../solid/primitives.ts';
import { rectangle } from '../../solid/profile.ts';
import { type Shape, union } from '../../solid/shape.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import { FOOT, type Heights } from './heights.ts';

/** Thickness of the slices that hulls are spanned between, mm. */
const SLICE = 0.01;

/** A convex prism that stands on the bed up to the top of the plate, its first layer drawn in by `FOOT` and widening from
 *  there at 45 degrees: what the first layer spreads stays inside of the walls above it. */
export function footedPrism(
  outline: readonly Readonly<Vec2>[],
  { firstLayer, footEnd, plate }: Heights,
): Shape {
  const full = outline.map(([x, y]): Vec2 => [x, y]);
  const narrow = inset(full, FOOT);
  return union(
    hull(prism('z', narrow, 0, firstLayer), prism('z', full, footEnd, footEnd + SLICE)),
    prism('z', full, footEnd, plate),
  );
}

/** What is taken out of the plate for a round bore, wider in the first layer by `FOOT` a side. */
export function footedBore(
  [x, y]: Readonly<Vec2>,
  diameter: number,
  { firstLayer, footEnd, plate }: Heights,
): Shape {
  const wide = diameter + 2 * FOOT;
  return union(
    cylinder({ axis: 'z', diameter, from: [x, y, -1], length: plate + 2, sense: 'bore' }),
    cylinder({
      axis: 'z',
      diameter: wide,
      from: [x, y, -1],
      length: 1 + firstLayer,
      sense: 'bore',
      surface: 'plain',
    }),
    cylinder({
      axis: 'z',
      diameter: wide,
      endDiameter: diameter,
      from: [x, y, firstLayer],
      length: footEnd - firstLayer,
      sense: 'bore',
      surface: 'plain',
    }),
  );
}

/** The same for a rectangular slot. */
export function footedSlot(
  centre: Readonly<Vec2>,
  size: Vec2,
  { firstLayer, footEnd, plate }: Heights,
): Shape {
  const outline = (by: number): Contour => rectangle([size[0] + 2 * by, size[1] + 2 * by], [...centre]);
  return union(
    prism('z', outline(0), -1, plate + 1),
    hull(prism('z', outline(FOOT), -1, firstLayer), prism('z', outline(0), footEnd, footEnd + SLICE)),
  );
}

/** A convex contour with every side moved inwards by `by` mm. */
function inset(contour: Contour, by: number): Contour {
  const sides = contour.map((p, k) => {
    const q = contour[(k + 1) % contour.length]!;
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    // Inward normal of a counter-clockwise side, and how far along it the moved side lies.
    const [nx, ny] = [-(q[1] - p[1]) / length, (q[0] - p[0]) / length];
    return { nx, ny, at: nx * p[0] + ny * p[1] + by };
  });
  return sides.map((one, k): Vec2 => {
    const before = sides.at(k - 1)!;
    const turn = before.nx * one.ny - before.ny * one.nx;
    return [
      (before.at * one.ny - one.at * before.ny) / turn,
      (before.nx * one.at - one.nx * before.at) / turn,
    ];
  });
}
