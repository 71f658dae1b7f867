import type { Bench } from '../bench/bench.ts';
import { leadTo } from './leadTo.ts';
import type { NextStep } from './verdictWords.ts';

/** Goes where a step is done: to its field, or to what is said of a finding, whose place the picture turns to. */
export function takeStep(bench: Bench, { to }: NextStep): void {
  if ('field' in to) {
    leadTo(bench, to.field);
    return;
  }
  bench.balloon.value = to.balloon;
  const note = document.getElementById(`finding-${to.balloon}`);
  note?.scrollIntoView({ block: 'center' });
  note?.querySelector<HTMLElement>('button')?.focus({ preventScroll: true });
}
