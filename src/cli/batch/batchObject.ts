import type { Problem } from '../../job/problem.ts';
import type { ResultFile } from '../../job/resultSchema.ts';
import { type BatchSummary, batchSummary } from './batchSummary.ts';
import type { Outcome } from './outcome.ts';

/** One job of several, as `fettle make --json` prints it. */
type JobObject = { readonly file: string } & (
  | { readonly how: 'made' | 'kept'; readonly minutes: number; readonly result: ResultFile }
  | { readonly how: 'refused'; readonly problems: readonly (Problem & { readonly about: string })[] }
  | { readonly how: 'broke'; readonly why: string }
);

/** What `fettle make --json` prints of several jobs: the jobs in the order given, each with the very object that it gives
 *  when made alone, and the numbers of them all. */
export const batchObject = (
  outcomes: readonly Outcome[],
): { readonly jobs: readonly JobObject[]; readonly summary: BatchSummary } => ({
  jobs: outcomes.map(jobObject),
  summary: batchSummary(outcomes),
});

function jobObject(outcome: Outcome): JobObject {
  const { path: file } = outcome;
  switch (outcome.how) {
    case 'refused': {
      const problems = outcome.problems.map((problem) => ({ about: outcome.file, ...problem }));
      return { file, how: 'refused', problems };
    }
    case 'broke':
      return { file, how: 'broke', why: outcome.why };
    default:
      return { file, how: outcome.how, minutes: outcome.minutes, result: outcome.result };
  }
}
