import { Refused } from '../../../src/job/problem.ts';
import type { RefusedJob } from '../answers.ts';

/** The answer of a task, or the problems for which it was refused. */
export function orRefused<T>(task: () => T): T | RefusedJob {
  try {
    return task();
  } catch (error) {
    if (error instanceof Refused) return { kind: 'refused', problems: error.problems };
    throw error;
  }
}
