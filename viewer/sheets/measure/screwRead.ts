import { Refused } from '../../../src/job/problem.ts';
import { readScrew } from '../../../src/job/screw/readScrew.ts';
import { type ScrewTold, screwTold } from '../../../src/job/screw/screwTold.ts';
import { identifyScrew } from '../../../src/standards/threads/identifyScrew.ts';
import { problemWords } from '../../verdict/problemWords.ts';

/** What is typed of a screw: its diameter, the threads counted, and how long they are together. */
export interface ScrewTexts {
  readonly diameter: string;
  readonly threads: string;
  readonly over: string;
}

export type ScrewField = keyof ScrewTexts;

/** What a screw is, or what is wrong with which field; null while there is no diameter. */
export type ScrewAnswer =
  | { readonly told: ScrewTold }
  | { readonly wrong: Readonly<Partial<Record<ScrewField, string>>> }
  | null;

/** Says what was typed of a screw, as `fettle screw` does; lengths without a unit in `unit`. A length over no threads counted
 *  is the pitch itself, and a count waits for its length.
 *  @example screwRead({ diameter: '4.92', threads: '10', over: '8' }, 'mm').told.likeliest.designation // => 'M5' */
export function screwRead(typed: ScrewTexts, unit: 'mm' | 'in'): ScrewAnswer {
  const [diameter, threads, over] = [typed.diameter.trim(), typed.threads.trim(), typed.over.trim()];
  if (diameter === '') return null;
  try {
    const length = threads === '' ? { pitch: over } : { threads, over };
    const screw = readScrew({ diameter, ...(over !== '' && length) }, unit);
    return { told: screwTold(screw, identifyScrew(screw)) };
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    const wrong = error.problems.map((problem) => {
      const { what, wanted } = problemWords(problem);
      return [fieldOf(problem.field), `${what}; allowed: ${wanted}`] as const;
    });
    return { wrong: Object.fromEntries(wrong) };
  }
}

const fieldOf = (option: string): ScrewField =>
  option === '--diameter' ? 'diameter' : option === '--threads' ? 'threads' : 'over';
