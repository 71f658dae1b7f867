import '../arithmetic/index.ts';
import { families } from '../../parts/index.ts';
import { Remembered } from '../remembered/remembered.ts';
import { type MakeAnswer, type MakeTask, makeOne } from './batch/makeOne.ts';

/** Jobs of one batch are often one part with other words or another fit; a thread keeps to 32 MiB of them. */
const known = new Remembered(32 * 2 ** 20);

/** Entry point of the threads that make jobs side by side, and the composition root of each: functions, which families are
 *  made of, do not pass from thread to thread. */
export default async function work(task: MakeTask): Promise<MakeAnswer> {
  try {
    return await makeOne(task, families, known);
  } catch (error) {
    // A fault may have left the memory of the geometry library in any state, so this thread makes nothing more: thrown
    // outside the call, the error ends it, and another takes its place.
    setImmediate(() => {
      throw error;
    });
    return new Promise(() => {});
  }
}
