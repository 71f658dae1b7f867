import { Refused } from './problem.ts';

/** Does work on a refit; what its donor cannot do comes out as a problem of the changes. Throws `Refused`. */
export function refusingRefit<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof Refused || !(error instanceof RangeError)) throw error;
    throw new Refused([
      {
        code: 'change_undecided',
        field: 'donor.changes',
        value: error.message,
        allowed: 'a change with take: its number, or another change',
      },
    ]);
  }
}
