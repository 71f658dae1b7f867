import type { Problem } from '../../../src/job/problem.ts';
import type { Bench } from '../../bench/bench.ts';

/** What is wrong with one field of the job, if that is why it was refused.
 *  @example problemAt(bench, 'callipers.zero')?.allowed // => '-5 to 5 mm' */
export function problemAt(bench: Bench, field: string): Problem | undefined {
  const outcome = bench.outcome.value;
  return outcome?.kind === 'refused' ? outcome.problems.find((one) => one.field === field) : undefined;
}
