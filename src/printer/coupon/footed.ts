import { circle, rectangle } from '../../solid/profile.ts';
import type { Shape } from '../../solid/shape.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import { FOOT, type Heights } from './heights.ts';
import { lofted } from './lofted.ts';

/** How far what is cut out reaches beyond the plate, mm. */
const BEYOND = 1;

/** A prism that stands on the bed up to the top of the plate, its first layer drawn in by `FOOT` and widening from there
 *  at 45 degrees: what the first layer spreads stays inside of the walls above it. */
export function footedPrism(outline: Contour, { firstLayer, footEnd, plate }: Heights): Shape {
  const narrow = inset(outline, FOOT);
  return lofted([
    { contour: narrow, z: 0 },
    { contour: narrow, z: firstLayer },
    { contour: outline, z: footEnd },
    { contour: outline, z: plate },
  ]);
}

/** What is taken out of the plate for a round bore, wider in the first layer by `FOOT` a side. */
export function footedBore(centre: Vec2, diameter: number, heights: Heights): Shape {
  const wall = circle(diameter, centre, { sense: 'bore' });
  const wider = 1 + (2 * FOOT) / diameter;
  const wide = wall.map(
    ([x, y]): Vec2 => [centre[0] + wider * (x - centre[0]), centre[1] + wider * (y - centre[1])],
  );
  return through(wall, wide, heights);
}

/** The same for a rectangular slot. */
export function footedSlot(centre: Vec2, [u, v]: Vec2, heights: Heights): Shape {
  return through(rectangle([u, v], centre), rectangle([u + 2 * FOOT, v + 2 * FOOT], centre), heights);
}

const through = (wall: Contour, wide: Contour, { firstLayer, footEnd, plate }: Heights): Shape =>
  lofted([
    { contour: wide, z: -BEYOND },
    { contour: wide, z: firstLayer },
    { contour: wall, z: footEnd },
    { contour: wall, z: plate + BEYOND },
  ]);

/** A contour with every side moved inwards by `by` mm; sides stay longer than nothing. */
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
