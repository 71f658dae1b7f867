import { describe, expect, it } from 'vitest';
import { membersOf } from '../../../src/job/members.ts';
import { plan } from '../../../src/job/plan.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { Refused } from '../../../src/job/problem.ts';
import { profileHash } from '../../../src/job/profileHash.ts';
import type { LadderRecord } from '../../../src/job/schema.ts';
import { rungsHash } from '../../../src/job/trial/sights.ts';
import { trialEvidence } from '../../../src/job/trial/trialEvidence.ts';
import { trialLesson } from '../../../src/job/trial/trialLesson.ts';
import { whatChanged } from '../../../src/job/trial/whatChanged.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { trialSchema } from '../../../src/job/trialSchema.ts';
import { learn } from '../../../src/printer/learn.ts';
import { knownOf } from '../../../src/printer/parameters.ts';
import { printerProfileSchema } from '../../../src/printer/profile.ts';
import { PARAMETERS, type PrinterProfile } from '../../../src/printer/types.ts';
import { footJob } from '../../parts/footJob.ts';
import { demo, type PlainJob, read } from '../demo.ts';
import { measured, record, tried, uncalibrated } from './bench.ts';

const base = read(demo());
const WIDTH = 'socket.width';
const tight = { felt: { [WIDTH]: 'tight' } } as const;
const large: Partial<TrialRecord> = { inspected: { readings: { [WIDTH]: ['4.02', '4.02', '4.03'] } } };
const of = (prepared: Prepared, id: string) => plan(prepared).interfaces.find((one) => one.id === id)!;
const drawnIn = (prepared: Prepared) => Object.values(plan(prepared).drawn);
const taught = (prepared: Prepared, one: TrialRecord) => {
  const lesson = trialLesson(prepared, one);
  if (!lesson.learnt) throw new RangeError(`taught requires a lesson (${lesson.because})`);
  return lesson;
};
const learnt = (
  lesson: { before: PrinterProfile; after: PrinterProfile },
  one: TrialRecord,
): TrialRecord => ({
  ...one,
  learnt: { before: lesson.before, after: profileHash(lesson.after) },
});

describe('the record of a print', () => {
  it('holds the sizes as drawn, and doubts that make up the whole', () => {
    const one = record(base);
    expect(trialSchema.parse(one)).toEqual(one);
    expect(Object.keys(one.sizes)).toEqual(plan(base).interfaces.map(({ id }) => id));
    for (const { id, drawn, predicted, clearance, u } of plan(base).interfaces) {
      const { doubt, ...size } = one.sizes[id]!;
      expect(size.drawn).toBeCloseTo(drawn, 6);
      expect(size.predicted).toBeCloseTo(predicted, 6);
      expect(size.clearance).toBeCloseTo(clearance, 6);
      expect(Math.hypot(doubt.printer, doubt.machine, doubt.spread)).toBeCloseTo(u, 5);
    }
  });

  it.each([
    ['nothing was read or felt', {}],
    ['another printer', { ...tight, printer: 'printer 2' }],
    ['another material', { ...tight, material: 'PLA' }],
    ['another layer height', { ...tight, layer: 0.1 }],
    ['a size the part no longer has', { felt: { 'foot.width': 'tight' } }],
    ['a fit that was filed after it was read', { ...tight, reworked: [WIDTH] }],
  ] as const)('changes nothing: %s', (_, came) => {
    const one = record(base, came as Partial<TrialRecord>);
    expect(plan(tried([one])).drawn).toEqual(plan(base).drawn);
    expect(plan(tried([one])).chance).toEqual(plan(base).chance);
    expect(whatChanged(tried([one]))).toEqual([]);
  });
});

describe('what was seen', () => {
  it('tight is drawn looser, loose tighter, and neither touches what shares nothing with it', () => {
    const [loose, tighter] = [
      of(tried([record(base, tight)]), WIDTH),
      of(tried([record(base, { felt: { [WIDTH]: 'loose' } })]), WIDTH),
    ];
    expect(loose.drawn).toBeLessThan(of(base, WIDTH).drawn - 0.03);
    expect(tighter.drawn).toBeGreaterThan(of(base, WIDTH).drawn + 0.03);
  });

  it('blames the printer when the print reads large, the machine when it reads as expected', () => {
    const one = record(base, { ...tight, ...large });
    const expected = record(base, {
      ...tight,
      inspected: { readings: { [WIDTH]: ['3.95', '3.95', '3.95'] } },
    });
    const [printer, machine] = [one, expected].map((each) => trialEvidence(base, each, WIDTH)!);
    expect(Math.abs(printer!.printer.mean)).toBeGreaterThan(2.5 * Math.abs(machine!.printer.mean));
    expect(Math.abs(machine!.machine.mean)).toBeGreaterThan(4 * Math.abs(machine!.printer.mean));
  });

  it('of a print that was filed and read again tells of the machine alone', () => {
    const filed = record(base, {
      ...tight,
      reworked: [WIDTH],
      inspected: { readings: {}, after: { [WIDTH]: ['3.92', '3.92', '3.92'] } },
    });
    const evidence = trialEvidence(base, filed, WIDTH)!;
    expect(evidence.machine.mean).toBeLessThan(-0.05);
    // The callipers erred in coupon and machine alike; nothing else ties the printer to what was felt.
    expect(Math.abs(evidence.printer.mean)).toBeLessThan(0.1 * Math.abs(evidence.machine.mean));
  });

  it('is refused where it cannot be read', () => {
    const bad = record(base, {
      inspected: { readings: { [WIDTH]: ['4.02', 'four'] }, callipers: { resolution: '9 mm' } },
    });
    const problems = (() => {
      try {
        tried([bad]);
        return [];
      } catch (error) {
        if (error instanceof Refused) return error.problems;
        throw error;
      }
    })();
    expect(problems.map(({ code, field, value }) => [code, field, value])).toEqual([
      ['length_range', 'trials[0].inspected.callipers.resolution', '"9 mm"'],
      ['reading_unclear', `trials[0].inspected.readings.${WIDTH}[1]`, '"four"'],
    ]);
  });
});

describe('a ladder of the same interface', () => {
  const now = of(base, WIDTH);
  const ladder: LadderRecord = {
    ...{ date: '2026-11-22', printer: 'printer 1', material: 'PETG', layer: 0.2 },
    rungs: [-2, -1, 0, 1, 2].map((k) => ({
      drawn: { [WIDTH]: now.drawn - (k * 0.03) / 0.998 },
      clearance: { [WIDTH]: now.clearance + k * 0.03 },
    })),
    doubt: { u: 0.03, spread: 0.02 },
    window: { [WIDTH]: [0, 0.15] },
    aim: { [WIDTH]: 0.075 },
    felt: { tight: [1], right: [2, 3], loose: [] },
  };
  const withLadder = (trials: readonly TrialRecord[]) =>
    tried(trials, (job) => Object.assign(job, { ladders: { socket: ladder } }));

  it('is where a print made after it starts from', () => {
    const start = withLadder([]);
    const one = record(start, tight);
    expect(one.sizes[WIDTH]!.ladder).toBe(rungsHash(ladder));
    const [before, later] = [of(start, WIDTH), of(withLadder([one]), WIDTH)];
    expect(later.drawn).toBeLessThan(before.drawn - 0.005);
    expect(later.u).toBeLessThan(before.u);
  });

  it('rests on what was felt before it, which does not count again', () => {
    const one = record(base, tight);
    expect(of(withLadder([one]), WIDTH).drawn).toBeCloseTo(of(withLadder([]), WIDTH).drawn, 9);
    expect(of(withLadder([one]), WIDTH).u).toBeCloseTo(of(withLadder([]), WIDTH).u, 9);
  });
});

describe.each([
  ['with a coupon read with the same callipers', measured],
  ['with stated doubts', () => undefined],
  ['without either', uncalibrated],
] as const)('what the printer learns, %s', (_, change) => {
  const start = read(demo(change));
  const one = record(start, { ...tight, ...large });
  const lesson = taught(start, one);

  it('is a profile, as doubtful as it was or less', () => {
    expect(printerProfileSchema.safeParse(lesson.after).success).toBe(true);
    expect(lesson.after.outerGrowth.value).toBeGreaterThan(lesson.before.outerGrowth.value + 0.003);
    // With a coupon the callipers' own error is not the printer's to learn; what is without it shrinks.
    const doubt = ({ calibration, ...profile }: PrinterProfile) =>
      PARAMETERS.map((parameter, k) =>
        calibration ? Math.sqrt(calibration.covariance[k]![k]!) : knownOf(profile, parameter).u,
      );
    const was = doubt(lesson.before);
    for (const [k, u] of doubt(lesson.after).entries()) expect(u).toBeLessThanOrEqual(was[k]! * (1 + 1e-9));
  });

  it('does not count twice in the job it learnt from', () => {
    const untaught = tried([one], change);
    const both = tried([learnt(lesson, one)], (job) => {
      change(job);
      job.printer = lesson.after;
    });
    expect(drawnIn(both)).toEqual(drawnIn(untaught));
    expect(plan(both).chance).toEqual(plan(untaught).chance);
    expect(whatChanged(both)).toEqual(whatChanged(untaught));
  });

  it('is learnt once: told anew it goes back first, and a profile that changed since is left alone', () => {
    const then = tried([learnt(lesson, one)], (job) => {
      change(job);
      job.printer = lesson.after;
    });
    expect(trialLesson(then, learnt(lesson, one))).toEqual(lesson);
    const touched = { ...then, printer: { ...lesson.after, repeatability: 0.03 } };
    expect(trialLesson(touched, learnt(lesson, one))).toEqual({ learnt: false, because: 'changed-since' });
  });

  it('hardly moves a size again where others have taught the printer since', () => {
    // The profile cannot be taken back, so that the print has nothing more to say of the printer.
    const since: PrinterProfile = { ...lesson.after, bridge: lesson.after.bridge + 1 };
    const now = tried([learnt(lesson, one)], (job) => {
      change(job);
      job.printer = since;
    });
    const [free, heard] = [
      trialEvidence(tried([one], change), one, WIDTH)!,
      trialEvidence(now, learnt(lesson, one), WIDTH)!,
    ];
    // What is left is the callipers' error where coupon and machine share it.
    expect(Math.abs(heard.printer.mean)).toBeLessThan(Math.max(0.005, 0.3 * Math.abs(free.printer.mean)));
    // Printer and machine together come out where they did while it could be.
    expect(Math.abs(of(now, WIDTH).drawn - of(tried([one], change), WIDTH).drawn)).toBeLessThan(0.02);
  });

  it('raises the chance of another job on the same printer', () => {
    const other = (job: PlainJob) => {
      change(job);
      job.readings = { ...job.readings, socketWidth: ['6.02', '6.01', '6.02'] };
    };
    const before = read(demo(other));
    const then = read(
      demo((job) => {
        other(job);
        job.printer = lesson.after;
      }),
    );
    expect(of(then, WIDTH).chance).toBeGreaterThan(of(before, WIDTH).chance + 0.0001);
    expect(of(then, WIDTH).u).toBeLessThan(of(before, WIDTH).u);
  });
});

describe('what the printer learns', () => {
  it('from one reading with callipers of their own is one step of least squares', () => {
    // Without causes the coupon shares with anything, the belief about the profile is normal.
    const plain = (job: PlainJob) => {
      measured(job);
      job.printer = { ...job.printer, calibration: { ...job.printer.calibration!, shared: [] } };
      job.callipers = { ...job.callipers, zero: 0 };
    };
    const start = read(demo(plain));
    const one = record(start, {
      inspected: { ...large.inspected!, callipers: { name: 'borrowed pair', permissibleError: '0.02' } },
    });
    const { before, after: now } = taught(start, one);
    const size = one.sizes[WIDTH]!;
    const read3 = (4.02 + 4.02 + 4.03) / 3;
    // Three readings that scatter by s about their mean, pooled with the ten the hand is known by; step; rectangular error.
    const s2 = (10 * 0.02 ** 2 + 2 * (2 / 3) * 0.005 ** 2 * 2) / 12;
    const variance = (s2 / 3) * (12 / 10) + 0.01 ** 2 / 12 + 0.02 ** 2 / 3 + size.doubt.spread ** 2;
    const sensitivity = { 'printer:scale.x': size.drawn, 'printer:outerGrowth': 2 };
    const expected = learn(before, sensitivity, read3 - size.predicted, variance);
    for (const parameter of PARAMETERS) {
      const [found, should] = [knownOf(now, parameter), knownOf(expected, parameter)];
      const { u } = knownOf(before, parameter);
      // The range of the error, which is no normal law, is worth a few thousandths.
      expect(Math.abs(found.value - should.value) / u).toBeLessThan(0.03);
      expect(Math.abs(found.u - should.u) / u).toBeLessThan(0.03);
    }
  });

  it.each([
    ['another printer', { ...tight, printer: 'printer 2' }, 'another-printer'],
    ['nothing seen', {}, 'says-nothing'],
    ['only what was filed', { ...tight, reworked: [WIDTH] }, 'says-nothing'],
  ] as const)('is nothing from %s', (_, came, because) => {
    expect(trialLesson(base, record(base, came as Partial<TrialRecord>))).toEqual({ learnt: false, because });
  });

  it('blames a machine read wrongly once, however often it is tried', () => {
    // Tight twice over, though the print reads as expected: it is the socket, not the printer, each time.
    const reads = { inspected: { readings: { [WIDTH]: ['3.95', '3.95', '3.95'] } } };
    const first = record(base, { ...tight, ...reads });
    const lesson = taught(base, first);
    const then = tried([learnt(lesson, first)], (job) => {
      job.printer = lesson.after;
    });
    const size = record(then).sizes[WIDTH]!.predicted.toFixed(2);
    const second = record(then, {
      ...{ date: '2026-11-27', made: 'b'.repeat(64) },
      ...{ felt: { [WIDTH]: 'right' }, inspected: { readings: { [WIDTH]: [size, size, size] } } },
    });
    const next = taught(then, second);
    expect(Math.abs(next.after.outerGrowth.value - base.printer.outerGrowth.value)).toBeLessThan(0.005);
  });
});

describe('what changed and why', () => {
  it('names what was felt and read, and whose doing it is', () => {
    const [change] = whatChanged(tried([record(base, { ...tight, ...large })]));
    expect(change).toMatchObject({ id: WIDTH, name: 'post in socket, width' });
    expect(change!.before).toBeCloseTo(of(base, WIDTH).drawn, 9);
    expect(change!.after).toBeCloseTo(of(tried([record(base, { ...tight, ...large })]), WIDTH).drawn, 9);
    // Read 4.0233, of which the closed jaws show 0.01, where 3.941 was expected.
    expect(change!.because).toMatch(
      /^felt tight and read 0\.07 larger than expected: the printer prints outer faces 0\.0\d a side larger than its profile said/,
    );
  });

  it('says of a machine read wrongly that it is smaller than was read', () => {
    const one = record(base, { ...tight, inspected: { readings: { [WIDTH]: ['3.95', '3.95', '3.95'] } } });
    expect(whatChanged(tried([one]))[0]!.because).toMatch(
      /^felt tight and read as was expected: the machine is 0\.0\d smaller there than it was read$/,
    );
  });
});

describe('a set of parts', () => {
  const feet = (trials: readonly TrialRecord[] = []) =>
    read(
      footJob({ kind: 'push-in', feet: 'each' }, (job) => {
        if (trials.length > 0) Object.assign(job, { trials });
      }),
    );
  const sizes = (prepared: Prepared) => membersOf(prepared).map((one) => plan(one.prepared).drawn[STEM]!);
  const STEM = 'stem';

  it('shares printer and readings: what one foot says is heard by all, and two that differ average', () => {
    const start = feet();
    const one = record(start);
    expect(Object.keys(one.sizes)).toContain('front-left.stem');
    const [none, some, mixed] = [
      sizes(start),
      sizes(feet([{ ...one, felt: { 'front-left.stem': 'tight' } }])),
      sizes(feet([{ ...one, felt: { 'front-left.stem': 'tight', 'rear-right.stem': 'loose' } }])),
    ];
    expect(none.length).toBe(4);
    // A stem that was tight is drawn smaller, every stem by as much.
    for (const [k, size] of some.entries()) expect(size).toBeLessThan(none[k]! - 0.02);
    for (const [k, size] of mixed.entries())
      expect(Math.abs(size - none[k]!)).toBeLessThan(0.3 * (none[k]! - some[k]!));
    expect(
      whatChanged(feet([{ ...one, felt: { 'front-left.stem': 'tight' } }])).map(({ id }) => id),
    ).toContain('rear-left.stem');
  });
});
