import { TableRefusal } from '../tableRefusal.ts';
import { britishAssociationThreads } from './britishAssociationThreads.ts';
import { metricThreads } from './metricThreads.ts';
import { tappingThreads } from './tappingThreads.ts';
import type { Thread } from './thread.ts';
import { unifiedThreads } from './unifiedThreads.ts';

/** Every thread that is known. */
export const threads: readonly Thread[] = [
  ...metricThreads,
  ...unifiedThreads,
  ...britishAssociationThreads,
  ...tappingThreads,
];

/** The thread of that designation, capitals and blanks or not. Throws `screw_size_unknown`.
 *  @example thread('m5 x 0.5').pitch // => 0.5
 *  @example thread('#4-40 UNC').nominal // => 2.8448 */
export function thread(designation: string): Thread {
  const plain = (text: string): string => text.toLowerCase().replaceAll(' ', '');
  const found = threads.find((each) => plain(each.designation) === plain(designation));
  if (found === undefined)
    throw new TableRefusal(
      'screw_size_unknown',
      'thread',
      designation,
      `one of ${threads.map((each) => each.designation).join(', ')}`,
    );
  return found;
}
