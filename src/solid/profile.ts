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
