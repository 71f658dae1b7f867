import fc from 'fast-check';
import { afterAll, expect, it } from 'vitest';
import socketCover from '../../parts/socket-cover/index.ts';
import { askedReadings } from '../../src/family/family.ts';
import type { Refused } from '../../src/job/problem.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { materialNames } from '../../src/standards/materials.ts';
import { read } from '../job/demo.ts';
import { coverJob, options } from '../parts/coverJob.ts';
import { attempt, expectInNumbers } from './randomJob.ts';

const kernel = await loadKernel();
const SEED = 20261128;
/** FETTLE_RUNS=4000 npx vitest run tests/property/socketCover.test.ts takes most of an hour and finds what so few miss. */
const RUNS = Number(process.env.FETTLE_RUNS ?? 25);

/** ms; nothing is timed here, but a run that hangs must end. */
const PATIENCE = 120_000 + 10_000 * RUNS;

/** Where in its range a reading or size lies, 0 to 1; the ends count extra. */
const share = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(0, 1) },
);
const sizes = Object.keys(socketCover.sizes);
/** Any option; of what goes on the face mostly none, or it would be crowded. */
const one = (id: string) =>
  ['connector', 'lettering', 'vents'].includes(id)
    ? fc.oneof(
        { weight: 3, arbitrary: fc.constant('none') },
        { weight: 2, arbitrary: fc.constantFrom(...options(id)) },
      )
    : fc.constantFrom(...options(id));

const jobs = fc
  .record({
    choices: fc.record(
      Object.fromEntries(Object.keys(socketCover.choices).map((id) => [id, one(id)])) as Record<
        string,
        fc.Arbitrary<string>
      >,
    ),
    material: fc.constantFrom(...materialNames, 'PETG' as const),
    calibrated: fc.boolean(),
    /** Readings that must agree with others are drawn beside them, in seven jobs of eight. */
    agree: fc.integer({ min: 0, max: 7 }).map((k) => k > 0),
    shares: fc.record(
      Object.fromEntries([...Object.keys(socketCover.readings), ...sizes].map((id) => [id, share])),
    ),
    set: fc.subarray(sizes, { maxLength: 2 }),
    label: fc.constantFrom('', 'A', 'AUX', 'LINE 2', 'gy(8)', '0.5 A T'),
  })
  .map(({ choices, material, calibrated, agree, shares, set, label }) =>
    coverJob(choices, (job) => {
      const between = (id: string, from: number, to: number) => from + (to - from) * shares[id]!;
      const put = (id: string, from: number, to: number) => {
        const spec = socketCover.readings[id]!;
        // The callipers' zero is taken off, and the lands of their jaws are added.
        const [least, most] = [spec.from + 0.02, spec.to - 0.1];
        if (id in job.readings)
          job.readings[id] = [Math.min(most, Math.max(least, between(id, from, to))).toFixed(2)];
        return Number(job.readings[id]?.[0]);
      };
      for (const [id, spec] of askedReadings(socketCover, job.choices)) put(id, spec.from, spec.to);
      if (agree) {
        const round = choices.opening === 'round' || choices.opening === 'D';
        const width = round ? put('openingDiameter', 14, 70) : put('openingWidth', 20, 100);
        const height = round
          ? put('openingFlat', 0.7 * width, width - 0.3) || width
          : put('openingHeight', 12, choices.opening === 'slotted' ? width - 4 : 60);
        put('cornerRadius', 0.4, 0.3 * Math.min(width, height));
        put('panelThickness', 0.8, 4);
        put('roomBehind', 10, 40);
        const pitch = put('pitch', width + 2, width + 30);
        const across = width + (['one', 'two', 'three'].indexOf(choices.openings!) || 0) * (pitch || 0);
        const spacing = put('screwSpacing', across + 9, across + 30) || across;
        put('recessWidth', spacing + 16, spacing + 40);
        put('rowWidth', spacing + 16, spacing + 60);
        put('recessHeight', height + 8, height + 20);
        put('recessDepth', 2.5, 5);
        const connector = put('connectorDiameter', 3, Math.min(12, width / 5));
        put('connectorFlat', 0.7 * connector, 0.95 * connector);
      }
      job.sizes = Object.fromEntries(
        set.map((id) => [id, between(id, socketCover.sizes[id]!.from, socketCover.sizes[id]!.to).toFixed(2)]),
      );
      job.texts = { label };
      job.material = material;
      if (!calibrated) Reflect.deleteProperty(job, 'printer');
    }),
  );

/** A refusal names what is to blame, in words and numbers. */
function namesTheCulprit({ field, allowed, reason = '' }: Refused['problems'][number]): void {
  expect(field).toMatch(/^(readings|sizes|choices)\.[a-zA-Z]+|^printer$/);
  expect(allowed + reason).not.toMatch(/NaN|Infinity|undefined|null/);
}

let [tried, made] = [0, 0];
const kinds = new Set<string>();
const ALWAYS = ['sound', 'overlap', 'behind', 'finger.stress', 'finger.bend', 'probe.finger', 'probe.wire'];

it(
  'makes a sound cover with every finding in numbers, or refuses and says which reading',
  () => {
    fc.assert(
      fc.property(jobs, (job) => {
        tried++;
        const result = attempt(kernel, job, namesTheCulprit);
        if (result === null) return;
        made++;
        const { held, opening, connector, vents, behind } = job.choices;
        kinds.add(`${opening} ${held}`);
        const { values } = read(job);
        expect(faultsOf(soundnessOf(result.parts[0]!.mesh), socketCover.genus(values))).toEqual([]);
        expectInNumbers(result);
        const ids = new Set(result.findings.map(({ id }) => id));
        const own = { 'spring arms': 'arms.strain', screws: 'clearance.screws.left', glue: 'glue' }[held!]!;
        for (const id of [...ALWAYS, own, ...(vents === 'slots' ? ['vents.fire'] : [])])
          expect(ids.has(id), id).toBe(true);
        expect(ids.has('connector.turn')).toBe(connector === 'D');
        // Caution, not permission.
        const verdict = result.findings.find(({ id }) => id === 'behind')!.verdict;
        expect(verdict).toBe(behind === 'low voltage only' ? 'holds' : 'fails');
        expect(result.cautions.join()).toMatch(/no rated enclosure.*qualified person/s);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  },
  PATIENCE,
);

afterAll(() => {
  if (tried === 0) return;
  // Otherwise a family that refuses everything would pass.
  expect(made / tried).toBeGreaterThan(1 / 4);
  expect(kinds.size).toBeGreaterThan(6);
});
