// Where a print comes to rest: one that was put down beside its place must find back to it.
import { beforeAll, describe, expect, it } from 'vitest';
import { seatingShift } from '../../src/check/seating.ts';
import { build } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { inverse, matrix } from '../../src/solid/placement.ts';
import { read } from '../job/demo.ts';
import { coverJob } from '../parts/coverJob.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe('a print with several features that guide it', () => {
  it.each([
    { openings: 'one', held: 'spring arms' },
    { openings: 'three', held: 'spring arms' },
    { openings: 'three', held: 'glue', vents: 'slots' },
    { openings: 'two', held: 'glue', sits: 'flush', connector: 'round', vents: 'slots' },
    { opening: 'round', held: 'spring arms', connector: 'D' },
  ])('$openings $opening, $held, vents $vents: goes to the middle once, not once for each', (choices) => {
    const prepared = read(
      coverJob(choices, (job) => {
        job.printer = {
          ...job.printer,
          firstLayerError: { value: 0.03, u: 0 },
        };
      }),
    );
    withScope(kernel, (scope) => {
      const context = build(scope, prepared, plan(prepared));
      const back = matrix(inverse(context.onBed));
      const [drawn, printed] = [context.solid, context.predicted].map((solid) =>
        scope.keep(solid.transform(back)),
      ) as [typeof context.solid, typeof context.solid];
      const beside = scope.keep(printed.translate([0.08, -0.05, 0]));
      const shift = seatingShift(context, drawn, beside);
      // A facet of a round is met 0.005 mm off at most.
      expect(Math.abs(shift[0] + 0.08)).toBeLessThan(0.006);
      expect(Math.abs(shift[1] - 0.05)).toBeLessThan(0.006);
      // The back of the plate, above all layers, stands as much too high as the first layer is.
      expect(shift[2]).toBeCloseTo(0.03, 4);
    });
  });
});
