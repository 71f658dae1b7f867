import type { FeltVerdict } from '../../fit/feltRecord.ts';
import { canBeMeant, MEANT, spoken } from '../../job/feltWords.ts';
import type { Problem } from '../../job/problem.ts';
import type { LadderRecord } from '../../job/schema.ts';
import { shown } from '../../job/zodProblems.ts';
import { RefusedFile } from '../refusedFile.ts';

/** Options of `fettle ladder` that hold a verdict, as typed. */
export interface ToldVerdict {
  readonly felt?: string | undefined;
  readonly tight?: string | undefined;
  readonly right?: string | undefined;
  readonly loose?: string | undefined;
}

/** Whether the person says how rungs felt. */
export const hasVerdict = (told: ToldVerdict): boolean =>
  [told.felt, told.tight, told.right, told.loose].some((text) => text !== undefined);

/** The verdict that was typed: numbers of rungs, `1,2 5` or `4-7`. Throws `RefusedFile` about `file` with every problem: no
 *  numbers, numbers that no rung has, a best one beside lists, verdicts that nobody can mean. */
export function verdictTold(file: string, told: ToldVerdict, record: LadderRecord): FeltVerdict {
  const problems: Problem[] = [];
  const count = record.rungs.length;
  const numbers = (option: '--felt' | '--tight' | '--right' | '--loose', text: string | undefined) => {
    if (text === undefined) return [];
    const found = numbersIn(text);
    const wrong = found?.filter((number) => !(number >= 1 && number <= count)) ?? [];
    if (found === undefined || wrong.length > 0)
      problems.push({
        code: 'rung_unknown',
        field: option,
        value: found === undefined ? shown(text) : wrong.join(', '),
        allowed:
          option === '--felt' ? `one number from 1 to ${count}` : `numbers from 1 to ${count}, as in 1,2`,
      });
    return found ?? [];
  };
  const best = numbers('--felt', told.felt);
  const verdict: FeltVerdict = {
    tight: numbers('--tight', told.tight),
    right: numbers('--right', told.right),
    loose: numbers('--loose', told.loose),
    ...(best.length === 1 && { best: best[0] }),
  };
  if (told.felt !== undefined && best.length > 1)
    problems.push({
      code: 'rung_unknown',
      field: '--felt',
      value: shown(told.felt),
      allowed: `one number from 1 to ${count}; --right takes several`,
    });
  if (problems.length === 0 && !canBeMeant(record, verdict))
    problems.push({
      code: 'verdict_contradictory',
      field: '--tight, --right, --loose',
      value: spoken(verdict),
      allowed: MEANT,
    });
  if (problems.length > 0) throw new RefusedFile(file, problems);
  return verdict;
}

/** Whole numbers in a text, ranges filled in, each once and in order; undefined when it holds anything else or nothing. */
function numbersIn(text: string): number[] | undefined {
  const words = text.split(/[,;\s]+/).filter((word) => word !== '');
  const found = words.flatMap((word) => {
    const [, from, to] = /^(\d{1,3})(?:(?:-|\.\.)(\d{1,3}))?$/.exec(word) ?? [];
    if (from === undefined) return [Number.NaN];
    const [a, b] = [Number(from), Number(to ?? from)];
    return a <= b ? Array.from({ length: b - a + 1 }, (_, k) => a + k) : [Number.NaN];
  });
  if (found.length === 0 || found.some(Number.isNaN)) return undefined;
  return [...new Set(found)].sort((a, b) => a - b);
}
