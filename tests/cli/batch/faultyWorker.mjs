// The worker as built, on a machine where some jobs come to grief; a job's file name says how.
import work from '../../../dist/bin/worker.js';

/** @param {{ path: string }} task */
export default (task) => {
  if (task.path.includes('thread-ends')) process.exit(9);
  if (task.path.includes('throws-late'))
    return new Promise(() =>
      setImmediate(() => {
        throw new Error('a wheel came off');
      }),
    );
  return work(task);
};
