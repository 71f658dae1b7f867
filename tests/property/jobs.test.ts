import fc from 'fast-check';
import { expect, it } from 'vitest';
import { mouthState } from '../../src/check/mouthState.ts';
import { build } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import type { Known } from '../../src/printer/types.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { demo, type PlainJob, read, roundPost } from '../job/demo.ts';

const kernel = await loadKernel();
const SEED = 20261125;
/** What two reckonings of a chance may differ by for no reason: 0.1 percentage point is promised. */
const CHANCE = 1e-3;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const whole = (min: number, max: number) => fc.integer({ min, max });

/** Bars, sockets, printers and callipers from good to poor; sizes stay where every job can be made. */
const jobs = fc
  .record({
    ...{ bar: between(1.2, 2.2), socket: between(3, 5), growth: between(-0.03, 0.1), doubt: between(0.2, 4) },
    ...{ repeatability: between(0.005, 0.06), resolution: fc.constantFrom('0.01', '0.02', '0.05') },
    ...{
      round: fc.boolean(),
      guide: fc.constantFrom('slot', 'bore'),
      mouth: fc.constantFrom('open', 'closed'),
    },
    calibrated: fc.constantFrom('2026-11-20', null),
  })
  .map((r) =>
    demo((job) => {
      if (r.round) roundPost(job);
      Object.assign(job.choices, { guide: r.guide, mouth: r.mouth });
      job.callipers = { scale: 'digital', resolution: r.resolution };
      job.readings.barDiameter = [r.bar.toFixed(2)];
      job.readings.farSide = [(4.9 + r.bar / 2).toFixed(2)];
      if (r.round) job.readings.socketDiameter = [r.socket.toFixed(2)];
      else job.readings.socketWidth = [r.socket.toFixed(2)];
      const doubtful = ({ value, u }: Known): Known => ({ value, u: Math.min(0.04, u * r.doubt) });
      const { scale, outerGrowth, boreShrink, boreCurvature } = job.printer;
      job.printer = {
        ...job.printer,
        ...{ calibrated: r.calibrated, repeatability: r.repeatability },
        scale: { x: doubtful(scale.x), y: doubtful(scale.y), z: doubtful(scale.z) },
        outerGrowth: { ...doubtful(outerGrowth), value: r.growth },
        ...{ boreShrink: doubtful(boreShrink), boreCurvature: doubtful(boreCurvature) },
      };
    }),
  );

const chances = (prepared: Prepared): Readonly<Record<string, number>> => {
  const { interfaces, chance } = plan(prepared);
  return { part: chance.part, ...Object.fromEntries(interfaces.map((one) => [one.id, one.chance])) };
};

/** Every chance of `better` is that of `worse` or more; how much the part gained. */
function expectNoWorse(better: Prepared, worse: Prepared): number {
  const [up, down] = [chances(better), chances(worse)];
  for (const [id, chance] of Object.entries(down)) expect(up[id], id).toBeGreaterThanOrEqual(chance - CHANCE);
  return up.part! - down.part!;
}

it('more readings of the same mean never make a fit less likely, and often more', () => {
  let gained = 0;
  fc.assert(
    fc.property(jobs, whole(2, 8), (job, times) => {
      const repeated = (count: number): Prepared =>
        read({
          ...job,
          readings: Object.fromEntries(
            Object.entries(job.readings).map(([id, texts]) => [
              id,
              Array<string | number>(count).fill(texts[0]!),
            ]),
          ),
        });
      if (expectNoWorse(repeated(times), repeated(1)) > 0.005) gained++;
    }),
    { seed: SEED, numRuns: 40 },
  );
  expect(gained).toBeGreaterThan(5);
});

it('a printer better known, or steadier, never makes a fit less likely, and often more', () => {
  let gained = 0;
  fc.assert(
    fc.property(jobs, between(0, 0.9), between(0.3, 1), (job, known, steady) => {
      const prepared = read(job);
      const tighter = ({ value, u }: Known): Known => ({ value, u: u * known });
      const { printer } = prepared;
      const better: Prepared = {
        ...prepared,
        printer: {
          ...printer,
          scale: { x: tighter(printer.scale.x), y: tighter(printer.scale.y), z: tighter(printer.scale.z) },
          ...{ outerGrowth: tighter(printer.outerGrowth), boreShrink: tighter(printer.boreShrink) },
          ...{ boreCurvature: tighter(printer.boreCurvature), repeatability: printer.repeatability * steady },
        },
      };
      if (expectNoWorse(better, prepared) > 0.005) gained++;
    }),
    { seed: SEED, numRuns: 40 },
  );
  expect(gained).toBeGreaterThan(10);
});

it('a window that closes in never makes a fit likelier', () => {
  fc.assert(
    fc.property(jobs, between(0.02, 0.12), between(0.3, 0.95), (job, half, part) => {
      const window = (width: number): Prepared =>
        read({
          ...job,
          fits: { bar: [0.2 - width, 0.2 + width], 'socket.width': [0.08 - width, 0.08 + width] },
        });
      expectNoWorse(window(half), window(half * part));
    }),
    { seed: SEED, numRuns: 30 },
  );
});

it('a larger share of the bar never strains the arms more, nor holds harder', () => {
  const strained = (job: PlainJob, share: number) => {
    const prepared = read({ ...job, sizes: { mouthShare: share.toFixed(4) } });
    return withScope(kernel, (scope) => {
      const context = build(scope, prepared, plan(prepared));
      const outcome = mouthState(context, context.loads[0]!, 'predicted');
      if (!outcome.ok) throw new RangeError(outcome.why);
      return { strain: outcome.state.strain, force: outcome.state.lipForce };
    });
  };
  fc.assert(
    fc.property(jobs, between(0.65, 0.95), between(0.005, 0.03), (job, share, more) => {
      job.choices.mouth = 'open';
      const [narrow, wide] = [strained(job, share), strained(job, share + more)];
      // The net of the solver is drawn anew for each mouth, which moves a strain by a per cent.
      expect(wide.strain).toBeLessThan(narrow.strain * 1.01);
      expect(wide.force).toBeLessThan(narrow.force * 1.01);
      expect(narrow.strain).toBeGreaterThan(0);
    }),
    { seed: SEED, numRuns: 12 },
  );
});
