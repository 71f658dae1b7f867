import fc from 'fast-check';
import { afterAll, expect, it } from 'vitest';
import { make } from '../../src/job/make.ts';
import type { Refused } from '../../src/job/problem.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { materialNames } from '../../src/standards/materials.ts';
import { demo, type PlainJob, read } from '../job/demo.ts';
import { attempt, expectInNumbers } from './randomJob.ts';

const kernel = await loadKernel();
const SEED = 20261125;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const lengths = (value: number): string[] => [value, value + 0.01, value - 0.01].map((v) => v.toFixed(2));

/** Clips over the whole range of the family. Sizes that must agree are drawn in relation to each other, so that most
 *  jobs can be made; the ends of every range still occur. */
const clips = fc
  .record({
    bar: between(0.9, 3.9),
    socket: between(2.1, 11),
    long: between(2.1, 11),
    deep: between(2, 14),
    drop: between(1.5, 14),
    reach: between(6, 55),
    hinge: between(0.3, 6),
    travel: between(0.6, 6),
    clear: between(0.6, 8),
    arm: between(0.6, 3),
    share: between(0.62, 0.97),
    material: fc.constantFrom(...materialNames),
    calibrated: fc.boolean(),
    choices: fc.record({
      post: fc.constantFrom('rectangular', 'round'),
      ribs: fc.constantFrom('none', 'crush'),
      guide: fc.constantFrom('slot', 'bore'),
      mouth: fc.constantFrom('open', 'closed'),
      lay: fc.constantFrom('side', 'upright'),
    }),
  })
  .map((d) =>
    demo((job: PlainJob) => {
      const drop = d.bar + d.drop;
      const rest = drop + d.bar / 2 + d.arm + d.travel + d.clear + 0.8;
      Object.assign(job.readings, {
        barDiameter: lengths(d.bar),
        socketWidth: lengths(d.socket),
        socketLength: lengths(d.long),
        socketDiameter: lengths(d.socket),
        socketDepth: lengths(d.deep),
        farSide: lengths(drop + d.bar / 2),
        roomAcross: ['40'],
        roomAlong: ['20'],
        reach: lengths(d.reach),
        hingeHeight: lengths(d.hinge),
        restHeight: lengths(rest),
        travel: lengths(d.travel),
      });
      job.sizes = { arm: d.arm.toFixed(2), mouthShare: d.share.toFixed(3) };
      job.choices = d.choices;
      job.material = d.material;
      if (!d.calibrated) Reflect.deleteProperty(job, 'printer');
    }),
  );

/** A refusal names a field and says what is allowed. */
function namesTheCulprit({ field, allowed, reason = '' }: Refused['problems'][number]): void {
  expect(field).not.toBe('');
  expect(allowed + reason).not.toBe('');
}

let [tried, made] = [0, 0];

it('makes a sound clip with every finding in numbers, or refuses and says why', () => {
  fc.assert(
    fc.property(clips, (job) => {
      tried++;
      const result = attempt(kernel, job, namesTheCulprit);
      if (result === null) return;
      made++;
      const genus = job.choices.mouth === 'closed' ? 1 : 0;
      expect(faultsOf(soundnessOf(result.parts[0]!.mesh), genus)).toEqual([]);
      expectInNumbers(result);
      const slack = 0.5;
      for (const { at, id } of result.findings) {
        if (id.startsWith('strain')) {
          at?.forEach((x, k) => {
            expect(x, id).toBeGreaterThan(-slack);
            expect(x, id).toBeLessThan(result.print.extents[k]! + slack);
          });
        }
      }
      const ids = new Set(result.findings.map(({ id }) => id));
      for (const id of [
        'sound',
        'bed',
        'wall',
        'contact',
        'tip',
        'heat',
        'binding',
        'route',
        'clearance.bar',
      ]) {
        expect(ids.has(id), id).toBe(true);
      }
    }),
    { seed: SEED, numRuns: 30 },
  );
});

it('keeps a round post off the plane of the body it stands on (a seam of no thickness tore the mesh)', () => {
  const job = demo((change) => {
    const { socketWidth, socketLength, ...rest } = change.readings;
    change.readings = {
      ...rest,
      socketDiameter: lengths(2.1),
      barDiameter: lengths(0.97),
      farSide: lengths(2.95),
    };
    change.sizes = { arm: '0.84', mouthShare: '0.620' };
    change.choices = { post: 'round', ribs: 'none', guide: 'slot', mouth: 'open', lay: 'upright' };
    Reflect.deleteProperty(change, 'printer');
  });
  expect(faultsOf(soundnessOf(make(kernel, read(job)).parts[0]!.mesh), 0)).toEqual([]);
});

it('never grows likelier when a window closes in', () => {
  fc.assert(
    fc.property(between(0.02, 0.2), between(0, 0.1), (width, less) => {
      const chance = (half: number): number =>
        make(
          kernel,
          read(
            demo((job) => {
              job.fits = { bar: [0.2 - half, 0.2 + half] };
            }),
          ),
        ).chance!;
      expect(chance(Math.max(0.005, width - less))).toBeLessThanOrEqual(chance(width) + 1e-9);
    }),
    { seed: SEED, numRuns: 15 },
  );
});

afterAll(() => {
  // Otherwise a family that refuses everything would pass.
  if (tried > 0) expect(made / tried).toBeGreaterThan(1 / 3);
});
