import { ResizeRefusal } from '../donor/features/resizeRefusal.ts';
import { Refused } from './problem.ts';

/** Does work on a refit; what its donor cannot do comes out as a problem of the reading that asks for it, or of the changes.
 *  Throws `Refused`. */
export function refusingRefit<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof Refused || !(error instanceof RangeError)) throw error;
    if (error instanceof ResizeRefusal) {
      const { code, subject, given, allowed } = error;
      throw new Refused([{ code, field: `readings.${subject}`, value: given, allowed }]);
    }
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
