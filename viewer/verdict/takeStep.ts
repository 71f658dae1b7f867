import type { Bench } from '../bench/bench.ts';
import { leadTo } from './leadTo.ts';
import type { NextStep } from './verdictWords.ts';

/** Goes where a step is done. */
export function takeStep(bench: Bench, { to }: NextStep): void {
  if ('field' in to) leadTo(bench, to.field);
  else bench.balloon.value = to.balloon;
}
