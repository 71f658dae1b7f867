import '../arithmetic/index.ts';
import { families } from '../../parts/index.ts';
import { type MakeAnswer, type MakeTask, makeOne } from './batch/makeOne.ts';

/** Entry point of the threads that make jobs side by side, and the composition root of each: functions, which families are
 *  made of, do not pass from thread to thread. */
export default async function work(task: MakeTask): Promise<MakeAnswer> {
  try {
    return await makeOne(task, families);
  } catch (error) {
    // A fault may have left the memory of the geometry library in any state, so this thread makes nothing more: thrown
    // outside the call, the error ends it, and another takes its place.
    setImmediate(() => {
      throw error;
    });
    return new Promise(() => {});
  }
}
