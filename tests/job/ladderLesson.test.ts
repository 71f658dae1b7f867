import { beforeAll, describe, expect, it } from 'vitest';
import { ladder } from '../../src/job/ladder.ts';
import { ladderLesson, profileHash } from '../../src/job/ladderLesson.ts';
import { plan } from '../../src/job/plan.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import type { LadderRecord } from '../../src/job/schema.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { demo, type PlainJob, read } from './demo.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** A printer known badly, with prints that repeat perfectly: all that is felt is the printer's doing or the machine's. */
const vague = (job: PlainJob) => {
  job.printer = { ...job.printer, outerGrowth: { value: 0.055, u: 0.06 }, repeatability: 0.002 };
};
const record = (prepared: Prepared, felt: Partial<NonNullable<LadderRecord['felt']>>): LadderRecord => ({
  date: '2026-11-25',
  ...ladder(kernel, prepared, 'socket.width', { rungs: 15, step: 0.02 }).record,
  felt: { tight: [], right: [], loose: [], ...felt },
});
/** Clearance of the post's width as this printer prints it, ladders left out of account, mm. */
const clearanceOf = (prepared: Prepared, printer: PrinterProfile): number =>
  plan({ ...prepared, printer }).interfaces.find(({ id }) => id === 'socket.width')!.predicted;

describe('what a printer learns from a ladder', () => {
  it('moves towards what was felt, by growth times two sides', () => {
    const prepared = read(demo(vague));
    // Rungs 0.02 apart about 0.075, window 0 to 0.15, and the socket was read to some 0.012.
    const lesson = ladderLesson(
      prepared,
      record(prepared, { tight: [1, 2, 3, 4, 5, 6], right: [7, 8, 9, 10, 11, 12] }),
    );
    if (!lesson.learnt) throw new Error(lesson.because);
    const by = lesson.after.outerGrowth.value - lesson.before.outerGrowth.value;
    // Rung 6 holds 0.035, rung 7 0.055: the shift lies between -0.055 and -0.035.
    expect(by).toBeGreaterThan(0.035 / 2 - 0.004);
    expect(by).toBeLessThan(0.055 / 2 + 0.004);
    expect(lesson.after.outerGrowth.u).toBeLessThan(0.02);
    // The formula with the printer learnt gives the size that was felt: the same drawn post prints that much larger.
    const { drawn } = plan(prepared);
    const [before, after] = [lesson.before, lesson.after].map(
      ({ outerGrowth, scale }) => drawn['socket.width']! * scale.x.value + 2 * outerGrowth.value,
    );
    expect(after! - before!).toBeGreaterThan(0.03);
    expect(after! - before!).toBeLessThan(0.06);
    expect(clearanceOf(prepared, lesson.after)).toBeCloseTo(clearanceOf(prepared, lesson.before), 6);
  });

  it('leaves the socket its share of the blame when the socket is hardly known', () => {
    const sure = read(demo(vague));
    const doubtful = read(
      demo((job) => {
        vague(job);
        job.callipers = { ...job.callipers, permissibleError: '0.2' };
      }),
    );
    const felt = { tight: [1, 2, 3, 4, 5, 6], right: [7, 8, 9] };
    const [one, other] = [sure, doubtful].map((prepared) => ladderLesson(prepared, record(prepared, felt)));
    if (!one!.learnt || !other!.learnt) throw new Error('both have something to learn');
    const moved = ({ before, after }: { before: PrinterProfile; after: PrinterProfile }) =>
      after.outerGrowth.value - before.outerGrowth.value;
    expect(moved(other!)).toBeLessThan(0.6 * moved(one!));
    expect(other!.after.outerGrowth.u).toBeGreaterThan(one!.after.outerGrowth.u);
  });

  it('counts from what the profile expects today, not from what it expected when the strip was drawn', () => {
    const then = read(demo(vague));
    const felt = record(then, { tight: [1, 2, 3, 4, 5, 6], right: [7, 8, 9] });
    // A coupon measured since already found the growth that the strip shows.
    const now = read(
      demo((job) => {
        vague(job);
        job.printer = { ...job.printer, outerGrowth: { value: 0.055 + 0.0225, u: 0.06 } };
      }),
    );
    const lesson = ladderLesson(now, felt);
    if (!lesson.learnt) throw new Error(lesson.because);
    expect(Math.abs(lesson.after.outerGrowth.value - 0.0775)).toBeLessThan(0.006);
  });

  it('touches no parameter that the size does not hang on', () => {
    const prepared = read(demo(vague));
    const lesson = ladderLesson(prepared, record(prepared, { best: 5 }));
    if (!lesson.learnt) throw new Error(lesson.because);
    const { scale, outerGrowth, ...rest } = lesson.after;
    const { scale: was, outerGrowth: grew, ...same } = lesson.before;
    expect(rest).toEqual(same);
    expect(outerGrowth).not.toEqual(grew);
    // On its side the post's width lies along x of the bed.
    expect(scale.x).not.toEqual(was.x);
    expect([scale.y, scale.z]).toEqual([was.y, was.z]);
  });

  it('learns once: a second verdict takes the place of the first, and a profile changed since is left alone', () => {
    const prepared = read(demo(vague));
    const first = record(prepared, { best: 5 });
    const lesson = ladderLesson(prepared, first);
    if (!lesson.learnt) throw new Error(lesson.because);
    const taught: LadderRecord = {
      ...first,
      learnt: { before: lesson.before, after: profileHash(lesson.after) },
    };
    const after = { ...prepared, printer: lesson.after };
    expect(ladderLesson(after, taught)).toEqual(lesson);
    const other = { ...taught, felt: { tight: [], right: [], loose: [], best: 9 } };
    expect(ladderLesson(after, other)).toEqual(ladderLesson(prepared, { ...first, felt: other.felt }));
    const touched = { ...after, printer: { ...lesson.after, repeatability: 0.03 } };
    expect(ladderLesson(touched, taught)).toEqual({ learnt: false, because: 'changed-since' });
  });

  it.each([
    ['another printer', { printer: 'printer 2' }, 'another-printer'],
    ['another layer height', { layer: 0.1 }, 'another-printer'],
    ['another material', { material: 'PLA' }, 'another-printer'],
    ['no verdict', { felt: undefined }, 'says-nothing'],
  ] as const)('learns nothing from %s', (_, change, because) => {
    const prepared = read(demo(vague));
    expect(ladderLesson(prepared, { ...record(prepared, { best: 5 }), ...change })).toEqual({
      learnt: false,
      because,
    });
  });
});
