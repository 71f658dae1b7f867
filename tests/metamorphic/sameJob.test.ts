// One job told in another way, or of another plastic: what must stay the same does, what must change does as it must.
import { afterAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { randomness } from '../simulation/randomness.ts';
import { anyJob, eachMade, PATIENCE, runs } from './anyJob.ts';
import { compared, ofStifferPlastic, ofStrongerPlastic } from './otherMaterial.ts';
import { readInAnotherOrder, writtenInAnotherOrder } from './otherOrder.ts';
import { inSteps, readInFractions, readInInches, readInThousandths } from './otherUnit.ts';

const kernel = await loadKernel();
/** FETTLE_RUNS=60 npx vitest run tests/metamorphic holds every job to every one of these. */
const RUNS = runs(1);
const EVERY = process.env.FETTLE_RUNS !== undefined;

const ways = [
  ...[ofStifferPlastic, readInInches, writtenInAnotherOrder],
  ...[readInThousandths, ofStrongerPlastic, readInFractions, readInAnotherOrder],
];

/** By itself a run holds each family to one of them, and the last one to all that are left. */
const waysFor = (k: number) =>
  EVERY ? ways : k === families.length - 1 ? ways.slice(k) : ways.slice(k, k + 1);

describe.each(families.map((family, k) => [family.id, family, k] as const))('%s', (_, family, k) => {
  it(
    'is the same part however it is told',
    () => {
      const random = randomness(254);
      eachMade(
        kernel,
        family,
        RUNS,
        () => anyJob(random, family, { text: inSteps }),
        (made) => {
          for (const way of waysFor(k)) way(kernel, made, random);
        },
      );
    },
    PATIENCE,
  );
});

afterAll(() => {
  if (EVERY) console.log('strains and forces compared', compared);
  // Otherwise the ways that look for them would pass on nothing.
  expect(compared.strains).toBeGreaterThan(0);
  expect(compared.forces).toBeGreaterThan(0);
});
