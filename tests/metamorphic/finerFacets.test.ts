import { describe, expect, it, vi } from 'vitest';
import { families } from '../../parts/index.ts';
import type { Finding } from '../../src/check/finding.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { randomness } from '../simulation/randomness.ts';
import { anyJob, eachMade, madeOf, PATIENCE, runs } from './anyJob.ts';

const fineness = vi.hoisted(() => ({ share: 1 }));
// The only seam: every round thing of the house asks this module how fine it is to be.
vi.mock('../../src/solid/facets.ts', async (original) => {
  const real = await original<typeof import('../../src/solid/facets.ts')>();
  const { interface: met, plain } = real.chordError;
  return {
    ...real,
    chordError: {
      get interface() {
        return met * fineness.share;
      },
      get plain() {
        return plain * fineness.share;
      },
    },
  };
});

const kernel = await loadKernel();
const RUNS = runs(1);

function withFacets<T>(share: number, work: () => T): T {
  fineness.share = share;
  try {
    return work();
  } finally {
    fineness.share = 1;
  }
}

/** How much a number may move when facets come nearer to their rounds, in its unit: a length between two rounds by the
 *  coarser chord error, 0.02 mm, on both, and that of a wall or gap which holds a little by where along them it is looked
 *  for; an area by that along its outline; what is solved on a mesh of elements by what a
 *  mesh drawn anew moves it. */
function slack({ id, unit, value, verdict }: Finding, outline: number): number {
  const size = Math.abs(value ?? 0);
  const lookedFor = /(^|\.)(wall|gap)$/.test(id) && verdict === 'holds';
  if (unit === 'mm') return (lookedFor ? 0.05 : 0.04) + 1e-3 * size;
  if (unit === 'mm2') return 0.02 * outline;
  if (unit === '%' || unit === 'N' || unit === 'MPa') return 0.06 * size + 0.02;
  return id === 'sound' ? 0 : 0.01 * size + 1e-3;
}

const untouched = (id: string): boolean => /^clearance\./.test(id);

describe.each(families.map((family) => [family.id, family] as const))('%s', (_, family) => {
  it(
    'with facets four times as fine keeps every verdict, and moves by no more than the coarse ones were off',
    () => {
      const random = randomness(60);
      let finer = 0;
      eachMade(
        kernel,
        family,
        RUNS,
        () => anyJob(random, family),
        ({ prepared, result }) => {
          const fine = withFacets(0.25, () => madeOf(kernel, prepared))!;
          if (fine.print.triangles > result.print.triangles) finer++;
          const outline = 4 * (result.print.extents[0] + result.print.extents[1]);
          expect(fine.findings.map(({ id }) => id).sort()).toEqual(
            result.findings.map(({ id }) => id).sort(),
          );
          for (const one of result.findings) {
            const its = fine.findings.find(({ id }) => id === one.id)!;
            const by = slack(one, outline);
            if (one.value === null || its.value === null) expect(its.value, one.id).toBe(one.value);
            // Sizes are planned before anything has facets.
            else if (untouched(one.id)) expect(its.value, one.id).toBeCloseTo(one.value, 6);
            else
              expect(
                Math.abs(its.value - one.value),
                `${one.id} ${one.value} ${its.value}`,
              ).toBeLessThanOrEqual(by);
            expect(its.verdict, `${one.id} ${one.value} ${its.value}`).toBe(one.verdict);
          }
          expect(fine.chance!).toBeCloseTo(result.chance!, 6);
        },
      );
      expect(finer).toBeGreaterThan(0);
    },
    PATIENCE,
  );
});
