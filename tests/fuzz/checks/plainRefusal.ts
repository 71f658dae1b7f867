import { oneLine } from '../../../src/cli/oneLine.ts';
import type { Problem } from '../../../src/job/problem.ts';
import { slipsIn } from './slips.ts';

/** More than anybody reads of one problem, characters. */
const LONGEST = 1500;

/** Throws unless each problem has a code, names file or field, and says what is allowed, in one line that a person reads. */
export function mustBePlainRefusal(
  file: string,
  problems: readonly Problem[],
  sentence: (problem: Problem) => string,
): void {
  if (problems.length === 0) throw new Error('refused without a reason');
  for (const problem of problems) {
    const { code, field, allowed, reason = '', value } = problem;
    const line = oneLine(sentence(problem));
    const bad = (what: string) => new Error(`refusal ${what}: ${line.slice(0, 2 * LONGEST)} (${code})`);
    if (!/^[a-z][a-z0-9_-]*$/.test(code)) throw bad('has no code');
    if (file === '' && field === '') throw bad('names neither file nor field');
    if (allowed.trim() === '') throw bad('does not say what is allowed');
    if (line.length > LONGEST) throw bad(`takes ${line.length} characters`);
    // Quoted text is what somebody gave, and so is a name that is none.
    const reckoned = code.endsWith('_unknown') ? '' : value;
    // Each by itself: the sign for inches in one would open a quotation in the next.
    const said = [allowed, reason, reckoned].map((text) => text.replace(/"(?:[^"\\]|\\.)*"?/g, ''));
    const slips = slipsIn(said.join(' '));
    if (slips.length > 0) throw bad(`says ${slips.join(', ')}`);
  }
}
