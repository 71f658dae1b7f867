import type { Problem } from '../problem.ts';
import type { RawReading } from './rawReadings.ts';

/** More readings of one thing than anybody takes. */
const MOST = 100;

/** Counts the readings of a file. What is handed back tells whether more readings of `id` can be taken; where they are too many
 *  that is said once, and whatever a damaged row of a hundred thousand holds besides need not be looked at. `what`:
 *  "feature". */
export function readingLimit(
  what: string,
  problems: Problem[],
): (id: string, more: Pick<RawReading, 'texts' | 'where'>) => boolean {
  const counts = new Map<string, number>();
  return (id, { texts, where }) => {
    const before = counts.get(id) ?? 0;
    const count = before + texts.length;
    counts.set(id, count);
    if (count <= MOST) return true;
    if (before <= MOST)
      problems.push({
        code: 'too_many_readings',
        field: where,
        value: `${count} readings of ${id}`,
        allowed: `at most ${MOST} of one ${what}`,
      });
    return false;
  };
}
