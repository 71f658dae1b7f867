import type { Vec2 } from '../../solid/vector.ts';
import { spreadApart } from '../couponForm/spreadApart.ts';
import { decimal } from '../drawing/index.ts';

/** A numbered place in a picture, x to the right and y down. */
export interface NumberedPlace {
  readonly number: number;
  readonly at: Readonly<Vec2>;
}

/** Radius of a balloon, its distance from the rim, from its neighbour, and height of its figures, in the units of a picture
 *  800 wide. */
const SIZES = { radius: 22, rim: 8, apart: 52, figures: 25, place: 5 } as const;

/** Size of a picture, and how many times larger than usual what is written on it is, because the picture is shown small. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly enlarged: number;
}

type Sizes = Readonly<Record<keyof typeof SIZES, number>>;

/** Balloons on either side of a picture with a leader to each place, as on an assembly drawing. A place in the left half
 *  has its balloon on the left. The pictures are on paper by day and by night, so their colours are of paper. */
export function balloonsAround(places: readonly NumberedPlace[], { width, height, enlarged }: Sheet): string {
  const sizes = Object.fromEntries(
    Object.entries(SIZES).map(([name, size]) => [name, size * enlarged]),
  ) as Sizes;
  const inset = sizes.radius + sizes.rim;
  const [left, right] = [
    places.filter(({ at }) => at[0] < width / 2),
    places.filter(({ at }) => at[0] >= width / 2),
  ];
  return column(left, inset, height, sizes) + column(right, width - inset, height, sizes);
}

function column(places: readonly NumberedPlace[], x: number, height: number, sizes: Sizes): string {
  const [top, bottom] = [sizes.radius + sizes.rim, height - sizes.radius - sizes.rim];
  const gap = Math.min(sizes.apart, (bottom - top) / Math.max(1, places.length - 1));
  const sorted = [...places].sort((a, b) => a.at[1] - b.at[1] || a.number - b.number);
  const wished = spreadApart(
    sorted.map(({ at }) => at[1]),
    gap,
  );
  // Those past the rim are pushed back, and the others before them.
  const heights = wished.map((y, k) =>
    Math.min(bottom - gap * (sorted.length - 1 - k), Math.max(top + gap * k, y)),
  );
  return sorted.map(({ number, at }, k) => balloonAt([x, heights[k]!], at, number, sizes)).join('');
}

function balloonAt(
  centre: Vec2,
  to: Readonly<Vec2>,
  number: number,
  { radius, figures, place }: Sizes,
): string {
  const away = Math.hypot(to[0] - centre[0], to[1] - centre[1]) || 1;
  const start = centre.map((c, k) => c + ((to[k]! - c) * radius) / away);
  const [cx, cy] = centre.map(decimal);
  return [
    `<path class="leader" d="M${start.map(decimal).join(' ')}L${to.map(decimal).join(' ')}"/>`,
    `<circle class="place" cx="${decimal(to[0])}" cy="${decimal(to[1])}" r="${decimal(place)}"/>`,
    `<circle class="balloon" cx="${cx}" cy="${cy}" r="${decimal(radius)}"/>`,
    `<text class="number" x="${cx}" y="${decimal(centre[1] + 0.36 * figures)}" font-size="${decimal(figures)}" text-anchor="middle">${number}</text>`,
  ].join('');
}
