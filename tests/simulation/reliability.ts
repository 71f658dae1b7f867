import type { FirstPrint } from './firstPrints.ts';

/** One tenth of the scale of chances: what was said and what came of it. */
export interface Decile {
  readonly from: number;
  readonly to: number;
  readonly prints: number;
  /** Mean stated chance, rate of prints that fitted, 0..1. */
  readonly stated: number;
  readonly achieved: number;
  /** Standard error of the achieved rate. */
  readonly error: number;
}

/** Stated chance against achieved rate by tenths of the stated chance; tenths without a print are left out. */
export function reliability(prints: readonly Pick<FirstPrint, 'stated' | 'fitted'>[]): Decile[] {
  return Array.from({ length: 10 }, (_, k) => k).flatMap((k) => {
    const here = prints.filter(({ stated }) => Math.min(9, Math.floor(stated * 10)) === k);
    if (here.length === 0) return [];
    const stated = here.reduce((sum, one) => sum + one.stated, 0) / here.length;
    const achieved = rate(here.map(({ fitted }) => fitted));
    const error = Math.sqrt((stated * (1 - stated)) / here.length);
    return [{ from: k / 10, to: (k + 1) / 10, prints: here.length, stated, achieved, error }];
  });
}

/** Share of those that are true, 0..1. */
export const rate = (held: readonly boolean[]): number => held.filter(Boolean).length / held.length;
