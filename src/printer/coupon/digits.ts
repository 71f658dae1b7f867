import { block } from '../../solid/primitives.ts';
import type { Shape } from '../../solid/shape.ts';
import type { Vec2, Vec3 } from '../../solid/vector.ts';

/** Size of one digit, and the gap between two, mm: 4 mm is what is read at arm's length, the rest leaves strokes of a
 *  0.9 mm line apart. */
export const digit = { width: 2.4, height: 4, gap: 0.7 } as const;

/** A one is a single stroke and stands as narrow as that, mm. */
const NARROW = 1;

/** Thinnest stroke, mm. */
const STROKE = 0.55;

/** Which of seven strokes make a digit: top, upper left, upper right, middle, lower left, lower right, bottom. */
const STROKES: readonly string[] = [
  '1110111',
  '0010010',
  '1011101',
  '1011011',
  '0111010',
  '1101011',
  '1101111',
  '1010010',
  '1111111',
  '1111011',
];

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

/** A whole number of 0 and above as blocks, one a stroke: from `inside` mm below the surface it stands on (against along x
 *  up) to `outside` mm above. A stroke is one line wide, 0.55 mm at least, so that a printer lays it down in one go. */
export function numberBlocks(
  number: number,
  { at, along, up }: NumberPlace,
  {
    inside,
    outside,
    lineWidth,
  }: { readonly inside: number; readonly outside: number; readonly lineWidth: number },
): Shape[] {
  const out: Vec3 = [
    along[1] * up[2] - along[2] * up[1],
    along[2] * up[0] - along[0] * up[2],
    along[0] * up[1] - along[1] * up[0],
  ];
  const point = (u: number, v: number, w: number): Vec3 =>
    [0, 1, 2].map((k) => at[k]! + u * along[k]! + v * up[k]! + w * out[k]!) as Vec3;
  let end = -digit.gap;
  return [...String(number)].flatMap((character) => {
    const shift = end + digit.gap;
    end = shift + widthOf(character);
    return strokesOf(character, Math.max(STROKE, lineWidth)).map(([[u0, v0], [u1, v1]]) => {
      const [p, q] = [point(u0 + shift, v0, -inside), point(u1 + shift, v1, outside)];
      const low = p.map((c, k) => Math.min(c, q[k]!)) as Vec3;
      const high = p.map((c, k) => Math.max(c, q[k]!)) as Vec3;
      return block(low, high);
    });
  });
}

/** Strokes of one digit as rectangles, from one corner to the opposite one. */
function strokesOf(character: string, s: number): (readonly [Vec2, Vec2])[] {
  const h = digit.height;
  const w = widthOf(character);
  const [low, high] = [(h - s) / 2, (h + s) / 2];
  const all: readonly (readonly [Vec2, Vec2])[] = [
    [
      [0, h - s],
      [w, h],
    ],
    [
      [0, low],
      [s, h],
    ],
    [
      [w - s, low],
      [w, h],
    ],
    [
      [0, low],
      [w, high],
    ],
    [
      [0, 0],
      [s, high],
    ],
    [
      [w - s, 0],
      [w, high],
    ],
    [
      [0, 0],
      [w, s],
    ],
  ];
  return all.filter((_, k) => STROKES[Number(character)]![k] === '1');
}
