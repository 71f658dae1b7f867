import { type ReadonlySignal, signal, useSignalEffect } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { FitFacts } from '../../../src/job/fitFacts.ts';
import { useBench } from '../../bench/bench.ts';

/** How the part on the bench usually fits, what ladders say and how the machine moves, asked of the worker whenever the job
 *  changes. Null until it answered; a job that cannot be understood leaves the last answer. */
export function useFitFacts(): ReadonlySignal<FitFacts | null> {
  const bench = useBench();
  const facts = useMemo(() => signal<FitFacts | null>(null), [bench]);
  useSignalEffect(() => {
    const job = bench.job.value;
    bench.spine
      .ask('the fits', (spine) => spine.fits(job))
      .then(
        (answer) => {
          if (!('kind' in answer) && bench.job.peek() === job) facts.value = answer;
        },
        // The strip of the worker says what broke.
        () => {},
      );
  });
  return facts;
}
