import type { GapWanted } from '../../src/job/solidView.ts';

/** Red, green, blue, 0 to 1. */
export type Colour = readonly [number, number, number];

/** What gaps are coloured with. */
export interface GapInks {
  readonly tight: Colour;
  readonly asWanted: Colour;
  readonly loose: Colour;
}

/** Where the scale ends on either side, mm a side beyond what is wanted. */
export const scaleEnds = { tight: 0.2, loose: 0.4 } as const;
/** The first step out of what is wanted is told from it at a glance. */
const FIRST = 0.3;

/** How far a gap is out of what is wanted, mm a side: below 0 too tight, above 0 too loose, 0 as wanted.
 *  @example beyond(0.2, { name: '', least: 0.05, most: 0.15 }) // => 0.05 */
export const beyond = (gap: number, { least, most }: GapWanted): number =>
  gap < least ? gap - least : gap > most ? gap - most : 0;

/** Colour of a gap by how far it is out, mm. Blending is between vermilion and blue over a neutral middle, which no kind of colour
 *  blindness confuses (Okabe and Ito, Color Universal Design, 2008). */
export function gapColour(out: number, { tight, asWanted, loose }: GapInks): Colour {
  if (out === 0) return asWanted;
  const share = Math.min(1, out < 0 ? -out / scaleEnds.tight : out / scaleEnds.loose);
  return mix(asWanted, out < 0 ? tight : loose, FIRST + (1 - FIRST) * share);
}

/** `share` 0 gives the first colour, 1 the second. */
export const mix = (a: Colour, b: Colour, share: number): Colour => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
  a[2] + share * (b[2] - a[2]),
];

/** A colour as style sheets write it: `#f6f4ee`, `rgb(27 36 48)`. Black for what is none.
 *  @example colourOf('#ff0000') // => [1, 0, 0] */
export function colourOf(text: string): Colour {
  const hex = /^#([\da-f]{2})([\da-f]{2})([\da-f]{2})/i.exec(text.trim());
  if (hex) return hex.slice(1, 4).map((two) => Number.parseInt(two, 16) / 255) as unknown as Colour;
  const numbers = text.match(/[\d.]+/g)?.map(Number) ?? [];
  return [0, 1, 2].map((k) => Math.min(1, (numbers[k] ?? 0) / 255)) as unknown as Colour;
}

export const colourText = (colour: Colour): string =>
  `#${colour
    .map((part) =>
      Math.round(255 * part)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
