import fc from 'fast-check';
import { afterAll, expect, it } from 'vitest';
import spacer from '../../parts/spacer/index.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { materialNames } from '../../src/standards/materials.ts';
import { spacerJob } from '../parts/spacerJob.ts';
import { attempt, expectInNumbers } from './randomJob.ts';

const kernel = await loadKernel();
const SEED = 20261129;
/** FETTLE_RUNS=4000 npx vitest run tests/property/spacer.test.ts for more. */
const RUNS = Number(process.env.FETTLE_RUNS ?? 20);

/** Any reading from end to end of its range, in hundredths, more often low than high. */
const typed = (id: string) => {
  const { from, to } = spacer.readings[id]!;
  // The callipers' zero is taken off.
  return fc
    .integer({ min: 0, max: 1000 })
    .map((k) => (from + 0.02 + (to - 0.1 - from) * (k / 1000) ** 2).toFixed(2));
};

const jobs = fc
  .record({
    choices: fc.record({ outline: fc.constantFrom('round', 'hex'), over: fc.constantFrom('screw', 'post') }),
    material: fc.constantFrom(...materialNames),
    calibrated: fc.boolean(),
    screw: typed('screw'),
    gap: typed('gap'),
    joint: fc.option(typed('joint')),
    width: fc.option(fc.integer({ min: 300, max: 4000 }).map((k) => (k / 100).toFixed(2))),
  })
  .map(({ choices, material, calibrated, screw, gap, joint, width }) =>
    spacerJob(choices, (job) => {
      job.readings = { screw: [screw], gap: [gap], joint: joint === null ? [] : [joint] };
      job.sizes = width === null ? {} : { width };
      job.material = material;
      if (!calibrated) Reflect.deleteProperty(job, 'printer');
    }),
  );

let [tried, made] = [0, 0];

it('makes a sound spacer with every finding in numbers, or refuses its width', () => {
  fc.assert(
    fc.property(jobs, (job) => {
      tried++;
      const result = attempt(kernel, job, ({ field, reason = '' }) => {
        expect(field).toBe('sizes.width');
        expect(reason).not.toMatch(/NaN|Infinity|undefined/);
      });
      if (result === null) return;
      made++;
      for (const { mesh } of result.parts) expect(faultsOf(soundnessOf(mesh), 1)).toEqual([]);
      expectInNumbers(result);
      const bore = result.interfaces.find(({ id }) => id === 'bore')!;
      expect(bore.predicted).toBeGreaterThan(bore.host);
    }),
    { seed: SEED, numRuns: RUNS },
  );
});

afterAll(() => {
  if (tried > 0) expect(made / tried).toBeGreaterThan(1 / 2);
});
