import type { FeltVerdict } from '../../../src/fit/feltRecord.ts';

/** What is said of one rung of a ladder. */
export type FeltMark = 'untried' | 'tight' | 'right' | 'loose' | 'best';

export const feltMarks: readonly FeltMark[] = ['tight', 'right', 'loose', 'best', 'untried'];

export const feltWord: Readonly<Record<FeltMark, string>> = {
  tight: 'tight',
  right: 'right',
  loose: 'loose',
  best: 'best',
  untried: 'untried',
};

/** Marks of the rungs of a ladder, number 1 first, from a verdict; nothing said without one. */
export const marksOf = (count: number, felt: FeltVerdict | undefined): readonly FeltMark[] =>
  Array.from({ length: count }, (_, k): FeltMark => {
    const number = k + 1;
    if (felt?.best === number) return 'best';
    return (['tight', 'right', 'loose'] as const).find((mark) => felt?.[mark].includes(number)) ?? 'untried';
  });

/** Marks with one more said. A best one stands by itself, as it says more than a list does.
 *  @example marked(['tight', 'untried', 'untried'], 2, 'best') // => ['untried', 'untried', 'best'] */
export const marked = (marks: readonly FeltMark[], at: number, mark: FeltMark): readonly FeltMark[] =>
  marks.map((before, k) => {
    if (k === at) return mark;
    return mark === 'best' || (before === 'best' && mark !== 'untried') ? 'untried' : before;
  });

/** The verdict that marks make; null while nothing is said. */
export function verdictOf(marks: readonly FeltMark[]): FeltVerdict | null {
  const of = (mark: FeltMark) => marks.flatMap((one, k) => (one === mark ? [k + 1] : []));
  const [best] = of('best');
  if (marks.every((mark) => mark === 'untried')) return null;
  return {
    tight: of('tight'),
    right: of('right'),
    loose: of('loose'),
    ...(best !== undefined && { best }),
  };
}
