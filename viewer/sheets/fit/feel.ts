import { fitClasses } from '../../../src/fit/classes.ts';
import { namedFit } from '../../../src/fit/namedFit.ts';
import type { FitClass } from '../../../src/fit/types.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { TableRefusal } from '../../../src/standards/tableRefusal.ts';
import { parseQuantity } from '../../../src/units/index.ts';

/** What a job asks for at one meeting surface. */
export type Wish = NonNullable<JobFile['fits']>[string];

/** Ways in which a surface may feel: as the family has it, a class, a window of one's own, a code of ISO 286. */
export type FeelKind = 'usual' | FitClass | 'window' | 'code';

/** How the classes feel, from the tightest. */
export const feels: readonly { readonly fit: FitClass; readonly words: string }[] = [
  { fit: 'press', words: 'pushed in, stays by itself' },
  { fit: 'snug', words: 'slips on by hand, no play to feel' },
  { fit: 'sliding', words: 'moves freely, hardly any play' },
  { fit: 'free', words: 'moves with play' },
];

/** Least and greatest clearance of a class, mm. */
export const windowOfFeel = (fit: FitClass): readonly [number, number] => [
  fitClasses[fit].lo,
  fitClasses[fit].hi,
];

/** Which way a wish is. */
export function feelOf(wish: Wish | undefined): FeelKind {
  if (wish === undefined) return 'usual';
  if (typeof wish !== 'string') return 'window';
  return Object.hasOwn(fitClasses, wish) ? (wish as FitClass) : 'code';
}

/** A job that asks for a feel at a surface; undefined: the usual one. */
export function withWish(job: JobFile, id: string, wish: Wish | undefined): JobFile {
  const { [id]: _, ...others } = job.fits ?? {};
  return { ...job, fits: wish === undefined ? others : { ...others, [id]: wish } };
}

/** What was typed, understood or not. */
export type Typed<T> = { readonly value: T } | { readonly refused: string };

/** Clearances the job may ask for, mm. */
const [LEAST, GREATEST] = [-2, 5];

/** A window of one's own out of two texts, in mm: decimal point or comma, units as everywhere.
 *  @example windowTyped('0,05', '0.2') // => { value: [0.05, 0.2] } */
export function windowTyped(least: string, greatest: string): Typed<[number, number]> {
  const ends = [least, greatest].map((text) =>
    parseQuantity(text, 'length', { defaultUnit: 'mm', sign: 'any' }),
  );
  const bad = ends.findIndex((end) => !end.ok);
  const end = ends[bad];
  if (end && !end.ok) return { refused: `the ${bad === 0 ? 'least' : 'greatest'} ${end.reason}` };
  const [lo, hi] = ends.map((one) => (one.ok ? one.value : Number.NaN)) as [number, number];
  if (lo < LEAST || hi > GREATEST) return { refused: `clearances from ${LEAST} to ${GREATEST} mm` };
  if (lo >= hi) return { refused: 'the least must be smaller than the greatest' };
  return { value: [lo, hi] };
}

/** The window that a code of ISO 286 means at a size of the machine, mm.
 *  @example codeTyped('H8/f7', 25) // => { value: [0.02, 0.074] } */
export function codeTyped(code: string, size: number): Typed<[number, number]> {
  try {
    const fit = namedFit(code.trim(), size);
    if (typeof fit === 'string') return { refused: 'a code such as H8/f7' };
    return fit.lo < LEAST || fit.hi > GREATEST
      ? { refused: `a code with clearances from ${LEAST} to ${GREATEST} mm` }
      : { value: [fit.lo, fit.hi] };
  } catch (error) {
    if (error instanceof TableRefusal) return { refused: error.allowed };
    throw error;
  }
}
