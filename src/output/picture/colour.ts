import { unit, type Vec3 } from '../../solid/vector.ts';
import { ink } from '../drawing/index.ts';

/** Red, green, blue, 0..255. */
export type Colour = readonly [number, number, number];

const parse = (hex: string): Colour =>
  [1, 3, 5].map((k) => Number.parseInt(hex.slice(k, k + 2), 16)) as unknown as Colour;

/** `share` of the second colour in the first. */
export const mix = (a: Colour, b: Colour, share: number): Colour => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
];

export const paper = parse(ink.paper);
export const line = parse(ink.ink);
const accent = parse(ink.accent);

/** Over the reader's left shoulder, in the frame of the view. */
export const light: Readonly<Vec3> = unit([-0.42, 0.78, 0.55]);

const inShade = mix(accent, line, 0.3);
const inLight = mix(accent, paper, 0.78);

/** Colour of a surface by its unit normal in the frame of the view. Light wraps around (half of it is left where the
 *  surface stands square to it), so that no side of a part drowns in black. */
export function shade(normal: Readonly<Vec3>): Colour {
  const facing = normal[0] * light[0] + normal[1] * light[1] + normal[2] * light[2];
  const wrapped = (1 + facing) / 2;
  return mix(inShade, inLight, wrapped * wrapped * (3 - 2 * wrapped));
}

/** How strongly a ghost's face veils what is behind, 0..1: faces turned from the light a little more. */
export function veil(normal: Readonly<Vec3>): number {
  const facing = normal[0] * light[0] + normal[1] * light[1] + normal[2] * light[2];
  return 0.075 - 0.04 * facing;
}
