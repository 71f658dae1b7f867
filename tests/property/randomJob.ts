import { expect } from 'vitest';
import { make } from '../../src/job/make.ts';
import { Refused } from '../../src/job/problem.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { ManifoldToplevel } from '../../src/solid/kernel.ts';
import { type PlainJob, read } from '../job/demo.ts';

type Told = Refused['problems'][number];

/** Made, or refused with problems that `look` has looked at, one by one; anything else is thrown on. */
export function attempt(
  kernel: ManifoldToplevel,
  job: PlainJob,
  look: (problem: Told) => void,
): MakeResult | null {
  try {
    return make(kernel, read(job));
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    expect(error.problems.length).toBeGreaterThan(0);
    for (const problem of error.problems) look(problem);
    return null;
  }
}

/** Whatever a part is, its chance is a chance, its findings are numbers with a source, its sizes can be drawn. */
export function expectInNumbers({ chance, findings, interfaces }: MakeResult): void {
  expect(chance).toBeGreaterThanOrEqual(0);
  expect(chance).toBeLessThanOrEqual(1);
  for (const { value, limit, id, because, source } of findings) {
    expect(value === null || Number.isFinite(value), `${id} ${value}`).toBe(true);
    expect(limit === null || Number.isFinite(limit), `${id} ${limit}`).toBe(true);
    expect(because, id).not.toMatch(/NaN|Infinity|undefined/);
    expect(source, id).not.toBe('');
  }
  for (const { drawn, predicted, id } of interfaces) {
    expect(drawn, id).toBeGreaterThan(0);
    expect(Number.isFinite(predicted), id).toBe(true);
  }
}
