// What the findings say of a part, worked out again by somebody who has nothing but the written file, the solids of the
// machine, and rays.
import { afterAll, describe, expect, it } from 'vitest';
import { families } from '../../../parts/index.ts';
import { windowOf } from '../../../src/fit/classes.ts';
import { loadKernel } from '../../../src/solid/kernel.ts';
import type { PlainJob } from '../../job/demo.ts';
import { PATIENCE, runs, understood } from '../../metamorphic/anyJob.ts';
import type { Randomness } from '../../simulation/randomness.ts';
import { worst as bed, expectBedAndMass } from './bedAndMass.ts';
import { eachPart } from './drawnJobs.ts';
import { expectMachineAround, seen as machine } from './machineAround.ts';
import { expectSizes, seen as sizes } from './sizes.ts';
import { expectUnderneath, seen as underneath } from './underneath.ts';
import { expectWallsAndGaps, seen as walls } from './wallsAndGaps.ts';

const kernel = await loadKernel();
/** FETTLE_RUNS=100 npx vitest run tests/outside/recomputed takes some twenty minutes. */
const RUNS = runs(1);

let turn = 0;

/** In every other job all fits are far too tight, so that part and machine overlap. */
const tooTight =
  (family: (typeof families)[number]) =>
  (job: PlainJob, random: Randomness): PlainJob => {
    const prepared = turn++ % 2 === 1 ? null : understood(job);
    if (!prepared) return job;
    const by = random.uniform(0.2, 0.8);
    const tight = family.interfaces(prepared.values, {}).flatMap(({ id, fit }) => {
      const { lo, hi } = windowOf(fit);
      const window: [number, number] = [Math.max(-1.9, lo - by), Math.min(4.9, hi) - by];
      return Number.isFinite(lo) && window[0] < window[1] ? [[id, window] as const] : [];
    });
    return { ...job, fits: Object.fromEntries(tight) };
  };

describe.each(families.map((family) => [family.id, family] as const))('%s', (_, family) => {
  it(
    'is as its findings say',
    () => {
      eachPart(
        kernel,
        family,
        97,
        RUNS,
        (judged) => {
          expectBedAndMass(judged);
          expectWallsAndGaps(judged);
          expectUnderneath(judged);
          expectSizes(judged);
          expectMachineAround(judged);
        },
        tooTight(family),
      );
    },
    PATIENCE,
  );
});

afterAll(() => {
  if (process.env.FETTLE_RUNS) console.log(JSON.stringify({ bed, walls, underneath, sizes, machine }));
  // Sizes whose middle another hollow crosses are left to the tests of their part.
  expect(sizes.measured).toBeGreaterThan(sizes.notThere);
  expect(walls.there).toBeGreaterThan(0);
  expect(machine.gaps).toBeGreaterThan(machine.overlaps);
  expect(machine.overlaps).toBeGreaterThan(0);
});
