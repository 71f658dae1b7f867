import fc from 'fast-check';
import { afterAll, expect, it } from 'vitest';
import caseFoot from '../../parts/case-foot/index.ts';
import { askedReadings } from '../../src/family/family.ts';
import type { Refused } from '../../src/job/problem.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { materialNames } from '../../src/standards/materials.ts';
import { footJob } from '../parts/footJob.ts';
import { attempt, expectInNumbers } from './randomJob.ts';

const kernel = await loadKernel();
const SEED = 20261127;
/** FETTLE_RUNS=4000 npx vitest run tests/property/caseFoot.test.ts takes an hour and finds what so few miss. */
const RUNS = Number(process.env.FETTLE_RUNS ?? 25);

/** ms; nothing is timed here, but a run that hangs must end. */
const PATIENCE = 120_000 + 10_000 * RUNS;

/** Where in its range a reading or size lies, 0 to 1, more often low than high, as feet are; the ends count extra.
 *  Whole thousandths, for doubles are drawn by their bits and come out next to 0. */
const lowShare = fc
  .oneof(
    { weight: 9, arbitrary: fc.integer({ min: 0, max: 1000 }) },
    { weight: 1, arbitrary: fc.constantFrom(0, 1000) },
  )
  .map((thousandths) => (thousandths / 1000) ** 1.5);
const ids = [...Object.keys(caseFoot.readings), ...Object.keys(caseFoot.sizes)];

const jobs = fc
  .record({
    choices: fc.record({
      kind: fc.constantFrom('push-in', 'screw-on', 'stick-on', 'riser'),
      shape: fc.constantFrom('round', 'rectangular'),
      feet: fc.constantFrom('alike', 'alike', 'alike', 'each'),
    }),
    material: fc.constantFrom(...materialNames, 'TPU' as const),
    calibrated: fc.boolean(),
    balanced: fc.boolean(),
    shares: fc.record(Object.fromEntries(ids.map((id) => [id, lowShare]))),
    set: fc.subarray(Object.keys(caseFoot.sizes), { maxLength: 2 }),
  })
  .map(({ choices, material, calibrated, balanced, shares, set }) =>
    footJob(choices, (job) => {
      const between = (id: string, from: number, to: number) => from + (to - from) * shares[id]!;
      for (const [id, spec] of askedReadings(caseFoot, choices)) {
        // The callipers' zero is taken off, and the lands of their jaws are added.
        const text = between(id, spec.from + 0.02, spec.to - 0.1).toFixed(spec.quantity === 'mass' ? 0 : 2);
        if (!spec.optional) job.readings[id] = [text];
      }
      const number = (id: string) => Number(job.readings[id]?.[0]);
      if (balanced) {
        job.readings.balance = [
          (number('frontEdge') + between('balance', 0.1, 0.9) * number('apart')).toFixed(0),
        ];
        job.readings.balanceAcross = [(between('balanceAcross', 0.1, 0.9) * number('across')).toFixed(0)];
      }
      job.sizes = Object.fromEntries(
        set.map((id) => [id, between(id, caseFoot.sizes[id]!.from, caseFoot.sizes[id]!.to).toFixed(2)]),
      );
      job.material = material;
      if (!calibrated) Reflect.deleteProperty(job, 'printer');
    }),
  );

/** A refusal names what is to blame, in words and numbers. */
function namesTheCulprit({ field, allowed, reason = '' }: Refused['problems'][number]): void {
  expect(field).toMatch(/^(readings|sizes|choices)\.[a-zA-Z]+|^printer$/);
  expect(allowed + reason).not.toMatch(/NaN|Infinity|undefined/);
}

let [tried, made] = [0, 0];
const kinds = new Set<string>();

it(
  'makes a sound foot with every finding in numbers, or refuses and says which reading',
  () => {
    fc.assert(
      fc.property(jobs, (job) => {
        tried++;
        const result = attempt(kernel, job, namesTheCulprit);
        if (result === null) return;
        made++;
        const { kind, feet } = job.choices;
        kinds.add(kind!);
        expect(result.parts).toHaveLength(feet === 'each' && kind !== 'riser' ? 4 : 1);
        for (const { mesh } of result.parts)
          expect(faultsOf(soundnessOf(mesh), kind === 'screw-on' ? 1 : 0)).toEqual([]);
        expectInNumbers(result);
        const own = { 'push-in': 'stem.hold', 'screw-on': 'head', 'stick-on': 'bulge', riser: 'tips' }[
          kind!
        ]!;
        for (const id of ['sound', 'load', 'stands', 'pressure', 'clearance.height', own])
          expect(
            result.findings.some((one) => one.id === id || one.id.endsWith(`.${id}`)),
            id,
          ).toBe(true);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  },
  PATIENCE,
);

afterAll(() => {
  if (tried === 0) return;
  // Otherwise a family that refuses everything would pass.
  expect(made / tried).toBeGreaterThan(1 / 3);
  if (tried >= 100) expect([...kinds].sort()).toEqual(['push-in', 'riser', 'screw-on', 'stick-on']);
});
