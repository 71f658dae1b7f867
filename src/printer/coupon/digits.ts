import { prism } from '../../solid/primitives.ts';
import { difference, placed, type Shape } from '../../solid/shape.ts';
import { type Contour, cross, type Placement, type Vec2, type Vec3 } from '../../solid/vector.ts';

/** Size of one digit, and the gap between two, mm: 4 mm is what is read at arm's length, the rest leaves strokes of a
 *  0.9 mm line apart. */
export const digit = { width: 2.4, height: 4, gap: 0.7 } as const;

/** A one is a single stroke and stands as narrow as that, mm. */
const NARROW = 1;

/** Thinnest stroke, mm. */
const STROKE = 0.55;

const widthOf = (character: string): number => (character === '1' ? NARROW : digit.width);

/** Width of a number as it stands on the part, mm.
 *  @example numberWidth(23) // => 5.5 */
export const numberWidth = (number: number): number =>
  [...String(number)].reduce((sum, character) => sum + widthOf(character) + digit.gap, -digit.gap);

/** Where a number stands: lower left corner, which way it runs and which way is up; both unit vectors along axes. */
export interface NumberPlace {
  readonly at: Vec3;
  readonly along: Vec3;
  readonly up: Vec3;
}

/** A whole number of 0 and above as digits, one solid each: from `inside` mm below the surface it stands on (the side of it
 *  where along x up points) to `outside` mm above. A stroke is one line wide, 0.55 mm at least, so that a printer lays
 *  it down in one go. */
export function numberBlocks(
  number: number,
  { at, along, up }: NumberPlace,
  {
    inside,
    outside,
    lineWidth,
  }: { readonly inside: number; readonly outside: number; readonly lineWidth: number },
): Shape[] {
  const out = cross(along, up);
  const onSurface: Placement = {
    rotation: [along[0], up[0], out[0], along[1], up[1], out[1], along[2], up[2], out[2]],
    translation: at,
  };
  let end = -digit.gap;
  return [...String(number)].map((character) => {
    const shift = end + digit.gap;
    end = shift + widthOf(character);
    const { outline, holes } = strokesOf(character, Math.max(STROKE, lineWidth));
    const moved = (contour: Contour): Contour => contour.map(([u, v]): Vec2 => [u + shift, v]);
    const flat = difference(
      prism('z', moved(outline), -inside, outside),
      ...holes.map((hole) => prism('z', moved(hole), -inside - THROUGH, outside + THROUGH)),
    );
    return placed(flat, onSurface);
  });
}

/** How far holes of digits are cut beyond them, mm. */
const THROUGH = 0.1;

/** Outline and holes of a digit of straight strokes `s` mm wide, counter-clockwise, lower left corner at the origin. One
 *  outline, not strokes laid over each other: joining faces that lie in one plane leaves slivers. */
function strokesOf(
  character: string,
  s: number,
): { readonly outline: Contour; readonly holes: readonly Contour[] } {
  const [w, h] = [widthOf(character), digit.height];
  // Edges of the strokes from left to right, and from below.
  const [l, r] = [s, w - s];
  const [a, b, c, d] = [s, (h - s) / 2, (h + s) / 2, h - s];
  const box = (u0: number, v0: number, u1: number, v1: number): Contour => [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ];
  const whole = box(0, 0, w, h);
  const [below, above] = [box(l, a, r, b), box(l, c, r, d)];
  const turnedOver = (contour: Contour): Contour => contour.map(([u, v]): Vec2 => [w - u, h - v]);
  const mirrored = (contour: Contour): Contour => contour.map(([u, v]): Vec2 => [w - u, v]).toReversed();
  const two: Contour = [
    ...([
      [0, 0],
      [w, 0],
      [w, a],
      [l, a],
      [l, b],
      [w, b],
    ] as const),
    ...([
      [w, h],
      [0, h],
      [0, d],
      [r, d],
      [r, c],
      [0, c],
    ] as const),
  ].map(([u, v]): Vec2 => [u, v]);
  const six: Contour = [
    [0, 0],
    [w, 0],
    [w, c],
    [l, c],
    [l, d],
    [w, d],
    [w, h],
    [0, h],
  ];
  switch (character) {
    case '0':
      return { outline: whole, holes: [box(l, a, r, d)] };
    case '1':
      return { outline: box(w - s, 0, w, h), holes: [] };
    case '2':
      return { outline: two, holes: [] };
    case '3':
      return {
        outline: [
          [0, 0],
          [w, 0],
          [w, h],
          [0, h],
          [0, d],
          [r, d],
          [r, c],
          [0, c],
          [0, b],
          [r, b],
          [r, a],
          [0, a],
        ],
        holes: [],
      };
    case '4':
      return {
        outline: [
          [r, 0],
          [w, 0],
          [w, h],
          [r, h],
          [r, c],
          [l, c],
          [l, h],
          [0, h],
          [0, b],
          [r, b],
        ],
        holes: [],
      };
    case '5':
      return { outline: mirrored(two), holes: [] };
    case '6':
      return { outline: six, holes: [below] };
    case '7':
      return {
        outline: [
          [r, 0],
          [w, 0],
          [w, h],
          [0, h],
          [0, d],
          [r, d],
        ],
        holes: [],
      };
    case '8':
      return { outline: whole, holes: [below, above] };
    case '9':
      return { outline: turnedOver(six), holes: [above] };
    default:
      throw new RangeError(`numberBlocks requires a whole number of 0 and above (given ${character})`);
  }
}
