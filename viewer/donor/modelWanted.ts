import { signal } from '@preact/signals';
import type { Bench } from '../bench/bench.ts';

/** Name of the model that is being looked at; null for none. */
export const lookingAt = signal<string | null>(null);

/** Name of the model that the job on the bench refits and this browser has not got; null where it lacks none. */
export function modelWanted(bench: Bench): string | null {
  const outcome = bench.outcome.value;
  const lacks = outcome?.kind === 'refused' && outcome.problems.some(({ code }) => code === 'model_missing');
  return lacks ? (bench.job.value.donor?.file ?? null) : null;
}
