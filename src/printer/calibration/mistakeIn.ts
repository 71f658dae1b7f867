import { MILLIMETRES_PER_INCH } from '../../units/index.ts';
import type { Mistake, TypedReading } from './types.ts';

/** A slip that would explain a reading. */
export interface Explanation {
  readonly mistake: Mistake;
  /** What was probably meant, mm as the callipers show it. */
  readonly likely: number;
}

/** Standard deviations within which a corrected reading counts as explained. */
export const EXPLAINED = 3;

/** The likeliest slip of the pen or of the eye behind a reading that does not fit, if one would make it fit. Tried in
 *  order: decimal point one or two places off, wrong unit, two neighbouring digits swapped (the swap that comes nearest).
 *  `distance` tells how many standard deviations a reading of so many mm would be off.
 *  @example mistakeIn({ mm: 4.97, text: '4.97' }, (mm) => (mm - 4.79) / 0.03)
 *  // => { mistake: 'digits-swapped', likely: 4.79 } */
export function mistakeIn(reading: TypedReading, distance: (mm: number) => number): Explanation | undefined {
  const { mm } = reading;
  const candidates: readonly (readonly [Mistake, readonly number[]])[] = [
    ['decimal-slipped', [mm / 10, mm * 10, mm / 100, mm * 100]],
    ['wrong-unit', [mm * MILLIMETRES_PER_INCH, mm / MILLIMETRES_PER_INCH]],
    ['digits-swapped', swapped(reading)],
  ];
  for (const [mistake, values] of candidates) {
    const [best] = values
      .map((likely) => ({ likely, off: Math.abs(distance(likely)) }))
      .sort((a, b) => a.off - b.off);
    if (best !== undefined && best.off <= EXPLAINED) return { mistake, likely: best.likely };
  }
  return undefined;
}

/** Lengths in mm that two neighbouring digits the other way round would give; empty for fractions.
 *  @example swapped({ mm: 4.97, text: '4.97' }) // => [9.47, 4.79] */
export function swapped({ mm, text }: TypedReading): readonly number[] {
  // A bare number has lost the noughts its display showed: 4.9 may have been 4.90.
  const typed = typeof text === 'number' ? text.toFixed(Math.max(2, decimals(text))) : text;
  const number = /\d*[.,]?\d+/.exec(typed)?.[0];
  if (number === undefined || typed.includes('/')) return [];
  const value = toNumber(number);
  if (!(value > 0)) return [];
  const places = [...number].flatMap((character, k) => (/\d/.test(character) ? [k] : []));
  const swaps = places.slice(1).flatMap((place, k) => {
    const characters = [...number];
    const before = places[k]!;
    [characters[before], characters[place]] = [characters[place]!, characters[before]!];
    const other = characters.join('');
    // The unit it was typed in is whatever made the number this many mm.
    return other === number ? [] : [Number(((toNumber(other) * mm) / value).toPrecision(12))];
  });
  return [...new Set(swaps)];
}

const toNumber = (text: string): number => Number(text.replace(',', '.'));
const decimals = (value: number): number => String(value).split('.')[1]?.length ?? 0;
