import { callipersOf } from '../callipersOf.ts';
import type { Problem } from '../problem.ts';
import { readingTyped } from '../readingTyped.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { shown } from '../zodProblems.ts';

/** What cannot be understood in the trials of a job: readings of a print, and the callipers they were taken with. `unit`
 *  is meant where a text has none. Sizes the part no longer has are history, and no problem. */
export function trialProblems(
  trials: readonly TrialRecord[],
  unit: 'mm' | 'in',
  say: (problem: Problem) => void,
): void {
  for (const [k, { inspected, sizes }] of trials.entries()) {
    for (const [id, { window }] of Object.entries(sizes)) {
      const [lo, hi] = window;
      if (lo === null || hi === null ? lo !== hi : lo < hi) continue;
      say({
        code: 'window_range',
        field: `trials[${k}].sizes.${id}.window`,
        value: shown(window),
        allowed: 'two clearances in mm, the smaller first; one of them may be null',
      });
    }
    if (inspected === undefined) continue;
    const at = `trials[${k}].inspected`;
    if (inspected.callipers !== undefined)
      callipersOf(inspected.callipers, unit, (problem) =>
        say({ ...problem, field: `${at}.${problem.field}` }),
      );
    for (const map of ['readings', 'after'] as const)
      for (const [id, texts] of Object.entries(inspected[map] ?? {}))
        for (const [n, text] of texts.entries()) {
          const length = readingTyped({}, String(text), unit);
          if (length.ok) continue;
          say({
            code: 'reading_unclear',
            field: `${at}.${map}.${id}[${n}]`,
            value: shown(text),
            allowed: length.allowed,
            reason: `(of the print) ${length.reason}`,
          });
        }
  }
}
