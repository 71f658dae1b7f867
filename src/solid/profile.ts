import { chordError, circumscribed, facets, type Surface } from './facets.ts';
import type { Contour, Vec2 } from './vector.ts';

/** Which side of a round contour must be true: the `shaft` keeps inside the circle (vertices on it), the `bore`
 *  keeps outside (flats on it), so facets never make a fit tighter than drawn. */
export type Sense = 'shaft' | 'bore';

interface RoundOptions {
  readonly sense: Sense;
  readonly surface?: Surface;
}

/** Rectangle `size` mm about `centre`, counter-clockwise. */
export function rectangle(size: Vec2, centre: Vec2 = [0, 0]): Contour {
  const [u, v] = [size[0] / 2, size[1] / 2];
  const [x, y] = centre;
  return [
    [x - u, y - v],
    [x + u, y - v],
    [x + u, y + v],
    [x - u, y + v],
  ];
}

/** Circle of `diameter` mm about `centre` as a polygon, counter-clockwise. */
export const circle = (diameter: number, centre: Vec2, options: RoundOptions): Contour =>
  stadium(diameter, diameter, centre, options);

/** Slot with round ends: `width` mm across, `overall` mm long along the first axis, counter-clockwise.
 *  `overall` equal to `width` gives a circle; below it throws `RangeError`. */
export function stadium(
  width: number,
  overall: number,
  centre: Vec2,
  { sense, surface = 'interface' }: RoundOptions,
): Contour {
  if (!(width > 0) || !(overall >= width)) {
    throw new RangeError(
      `stadium requires width above 0 and overall length of at least the width (width ${width} mm, overall ${overall} mm)`,
    );
  }
  const n = facets(width, chordError[surface]);
  const r = sense === 'bore' ? circumscribed(width / 2, n) : width / 2;
  const half = (overall - width) / 2;
  // A bore is turned by half a facet so that its flats, not its corners, lie on the axes.
  const start = sense === 'bore' ? Math.PI / n : 0;
  const contour: Contour = [];
  for (let k = 0; k < n; k++) {
    const angle = start + (2 * Math.PI * k) / n;
    const side = Math.sign(Math.round(Math.cos(angle) * 1e9));
    const [u, v] = [r * Math.cos(angle), r * Math.sin(angle)];
    if (side === 0 && half > 0) {
      // The vertex on the axis belongs to both ends.
      const ends = v > 0 ? [half, -half] : [-half, half];
      for (const end of ends) contour.push([centre[0] + end, centre[1] + v]);
    } else {
      contour.push([centre[0] + u + side * half, centre[1] + v]);
    }
  }
  return contour;
}

/** Regular hexagon `across` mm across its flats about the origin, two corners on the first axis, counter-clockwise. */
export function hexagon(across: number): Contour {
  const corner = across / Math.sqrt(3);
  return [0, 1, 2, 3, 4, 5].map((k): Vec2 => {
    const angle = (k * Math.PI) / 3;
    return [corner * Math.cos(angle), corner * Math.sin(angle)];
  });
}

/** Rectangle `size` mm about `centre` with corners of `radius` mm, counter-clockwise. `sense` says which side of the
 *  rounds must be true. A radius of 0 gives a plain rectangle; throws `RangeError` above half the shorter side. */
export function roundedRectangle(
  size: Vec2,
  radius: number,
  centre: Vec2,
  { sense, surface = 'interface' }: RoundOptions,
): Contour {
  const most = Math.min(...size) / 2;
  if (!(radius >= 0 && radius <= most))
    throw new RangeError(
      `roundedRectangle requires a radius from 0 to half the shorter side (radius ${radius} mm, half ${most} mm)`,
    );
  if (radius === 0) return rectangle(size, centre);
  const n = facets(2 * radius, chordError[surface]);
  const outwards = sense === 'bore' ? circumscribed(radius, n) : radius;
  const [u, v] = [size[0] / 2 - radius, size[1] / 2 - radius];
  const corners: readonly Vec2[] = [
    [u, v],
    [-u, v],
    [-u, -v],
    [u, -v],
  ];
  const start = sense === 'bore' ? Math.PI / n : 0;
  const steps = sense === 'bore' ? n / 4 : n / 4 + 1;
  return corners.flatMap(([x, y], corner) =>
    Array.from({ length: steps }, (_, k): Vec2 => {
      const angle = start + (corner * Math.PI) / 2 + (2 * Math.PI * k) / n;
      return [centre[0] + x + outwards * Math.cos(angle), centre[1] + y + outwards * Math.sin(angle)];
    }),
  );
}

/** Circle of `diameter` mm about `centre` cut off by a flat that lies `across` mm from the far side, at the top
 *  (+ second axis); counter-clockwise. `across` from half the diameter to all of it; throws `RangeError` outside. */
export function dShape(diameter: number, across: number, centre: Vec2, options: RoundOptions): Contour {
  if (!(across > diameter / 2 && across <= diameter))
    throw new RangeError(
      `dShape requires the size across the flat to be above half the diameter and at most all of it (across ${across} mm, diameter ${diameter} mm)`,
    );
  const round = circle(diameter, centre, options);
  const level = centre[1] + across - diameter / 2;
  if (across === diameter) return round;
  const cut: Contour = [];
  for (const [k, p] of round.entries()) {
    const q = round[(k + 1) % round.length]!;
    if (p[1] <= level) cut.push(p);
    if (p[1] > level !== q[1] > level) {
      const t = (level - p[1]) / (q[1] - p[1]);
      if (t > 1e-9 && t < 1 - 1e-9) cut.push([p[0] + t * (q[0] - p[0]), level]);
    }
  }
  return cut;
}

/** Area inside a contour, mm^2; negative when it runs clockwise. */
export function area(contour: Contour): number {
  let twice = 0;
  for (let k = 0; k < contour.length; k++) {
    const [p, q] = [contour[k]!, contour[(k + 1) % contour.length]!];
    twice += p[0] * q[1] - q[0] * p[1];
  }
  return twice / 2;
}

/** Hydraulic diameter 4 A / P of a slot with round ends, mm: the width of a bore with walls as round as its own,
 *  from the width itself (a bore) to twice the width (a slot without end).
 *  @example hydraulicDiameter(2, 2) // => 2 */
export function hydraulicDiameter(width: number, overall: number): number {
  const straight = overall - width;
  const inside = width * straight + (Math.PI * width ** 2) / 4;
  return (4 * inside) / (2 * straight + Math.PI * width);
}
