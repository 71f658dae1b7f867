import { describe, expect, it, test } from 'vitest';
import { inspect } from '../../../src/job/inspection/inspection.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { driftOf } from '../../../src/job/inspection/printDrift.ts';
import { printReadings } from '../../../src/job/inspection/printReading.ts';
import { printSizes } from '../../../src/job/inspection/printSize.ts';
import { readJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { drawCallipers, take, told } from '../../simulation/callipers.ts';
import hinge from '../../simulation/hinge.ts';
import { randomness } from '../../simulation/randomness.ts';
import { demo, read } from '../demo.ts';
import { about, aPrint } from './aPrint.ts';

const clip = read(demo((job) => Object.assign(job, { callipers: { zero: 0 } })));
const expected = Object.fromEntries(
  Object.entries(aPrint(clip, {}).sizes).map(([id, s]) => [id, s.predicted]),
);
const judge = (sizes: Readonly<Record<string, number>>, prepared = clip) => {
  const readings = Object.fromEntries(Object.entries(sizes).map(([id, size]) => [id, about(size)]));
  const inspection = inspect(prepared, aPrint(prepared, readings));
  const of = (id: string) => inspection.sizes.find((one) => one.id === id)!;
  return { ...inspection, of };
};

/** A hinge with callipers that only scatter, by hand, and read each size so often. */
const hingeJob = (readings: Record<string, (number | string)[]>, more: Partial<JobFile> = {}) =>
  readJob(
    JSON.stringify({
      ...{ fettle: 1, family: 'hinge', readings },
      callipers: { resolution: '0.001', permissibleError: '0', repeatability: '0.02', landWidth: '0' },
      ...more,
    }),
    [hinge],
  );

describe('the clearance of a print', () => {
  // By hand, JCGM 100:2008, 4.2 and 5.1: s0 = 0.02 is worth 10 degrees of freedom; five equal readings pool to
  // s^2 = 10 * 0.0004 / 14, three to 10 * 0.0004 / 12; steps of 0.001 add 0.001 / sqrt(12) each.
  it('has the doubt of both readings and nothing of the printer', () => {
    const prepared = hingeJob({ socket: [6, 6, 6, 6, 6], shaft: [4, 4, 4, 4, 4] });
    const { sizes } = inspect(prepared, aPrint(prepared, { socket: [5.95, 5.95, 5.95] }));
    const [post] = sizes;
    const u = Math.sqrt(0.004 / 14 / 5 + 0.004 / 12 / 3 + 2 * (0.001 ** 2 / 12));
    expect(sizes.map(({ id }) => id)).toEqual(['socket']);
    expect(post!.clearance.value).toBeCloseTo(0.05, 9);
    expect(post!.clearance.u / u).toBeCloseTo(1, 2);
  });

  it('does not hear an error that callipers make in machine and print alike, but that of another pair', () => {
    const permissible = (mm: string, name?: string) => {
      const prepared = hingeJob(
        { socket: [6, 6, 6, 6, 6], shaft: [4, 4, 4, 4, 4] },
        { callipers: { resolution: '0.001', permissibleError: mm, landWidth: '0' } },
      );
      const record = aPrint(prepared, { socket: [5.95, 5.95, 5.95] });
      const callipers = { resolution: '0.001', permissibleError: mm, landWidth: '0', name };
      const own = name === undefined ? {} : { inspected: { ...record.inspected!, callipers } };
      return inspect(prepared, { ...record, ...own }).sizes[0]!.clearance.u;
    };
    expect(permissible('0.05')).toBeCloseTo(permissible('0'), 6);
    // Two pairs, each anywhere within 0.05: twice 0.05 / sqrt(3), JCGM 100:2008, 4.3.7.
    const both = Math.sqrt(permissible('0') ** 2 + 2 * (0.05 ** 2 / 3));
    expect(permissible('0.05', 'borrowed')).toBeCloseTo(both, 4);
  });

  it('of a step to the axis of a hollow is the wall read and half the hollow', () => {
    const wall = expected.drop! - expected.bar! / 2;
    const asExpected = judge({ drop: wall, bar: expected.bar! }).of('drop');
    expect(asExpected.print.value).toBeCloseTo(expected.drop!, 2);
    expect(judge({ drop: wall, bar: expected.bar! + 0.1 }).of('drop').print.value).toBeCloseTo(
      expected.drop! + 0.05,
      2,
    );
    // A hollow nobody has read is taken for what was expected of it.
    expect(judge({ drop: wall }).of('drop').print.value).toBeCloseTo(expected.drop!, 2);
  });
});

describe('stated chances, by simulation', () => {
  const random = randomness(41);
  const found: { stated: number; inside: boolean; verdict: string }[] = [];
  for (let k = 0; k < 150; k++) {
    const callipers = drawCallipers(random);
    const [socket, shaft] = [random.uniform(3, 9), random.uniform(3, 9)];
    const readings = {
      socket: take(5, socket, false, callipers, random),
      shaft: take(5, shaft, false, callipers, random),
    };
    const prepared = readJob(JSON.stringify({ fettle: 1, family: 'hinge', callipers: told, readings }), [
      hinge,
    ]);
    // Prints all over the windows 0 .. 0.15 and 0.1 .. 0.3, as if the printer were unknown.
    const clearance = { socket: random.uniform(-0.1, 0.25), shaft: random.uniform(0, 0.4) };
    const printed = { socket: socket - clearance.socket, shaft: shaft + clearance.shaft };
    const print = {
      socket: take(3, printed.socket, false, callipers, random),
      shaft: take(3, printed.shaft, true, callipers, random),
    };
    for (const { id, window, clearance: said, verdict } of inspect(prepared, aPrint(prepared, print)).sizes) {
      const truth = clearance[id as 'socket' | 'shaft'];
      found.push({ stated: said.inside, inside: truth >= window[0] && truth <= window[1], verdict });
    }
  }
  const share = (of: typeof found) => of.filter(({ inside }) => inside).length / of.length;

  it('come true as often as they say, within three standard errors', () => {
    expect(found).toHaveLength(300);
    for (const [from, to] of [
      [0, 0.2],
      [0.2, 0.8],
      [0.8, 1.01],
    ] as const) {
      const part = found.filter(({ stated }) => stated >= from && stated < to);
      const mean = part.reduce((sum, { stated }) => sum + stated, 0) / part.length;
      const error = Math.sqrt(part.reduce((sum, { stated }) => sum + stated * (1 - stated), 0)) / part.length;
      expect(part.length).toBeGreaterThan(25);
      expect(Math.abs(share(part) - mean)).toBeLessThan(3 * error + 0.01);
    }
  });

  it('what passes fits in at least 95 %, and what is to be made again hardly ever would have', () => {
    const passed = found.filter(({ verdict }) => verdict === 'pass');
    const failed = found.filter(({ verdict }) => verdict === 'reprint');
    expect(passed.length).toBeGreaterThan(60);
    expect(share(passed)).toBeGreaterThanOrEqual(0.95);
    expect(failed.length).toBeGreaterThan(40);
    expect(share(failed)).toBeLessThan(0.2);
  });
});

describe('verdicts', () => {
  it('pass what is as expected, all over', () => {
    const { sizes, verdict, unread, drift } = judge({
      ...expected,
      drop: expected.drop! - expected.bar! / 2,
    });
    expect(sizes.map((one) => [one.id, one.verdict, one.cause])).toEqual(
      Object.keys(expected).map((id) => [id, 'pass', 'as-expected']),
    );
    expect({ verdict, unread, drift }).toEqual({ verdict: 'pass', unread: [], drift: undefined });
  });

  it('name what nobody has read', () => {
    const { verdict, unread } = judge({ bar: expected.bar! });
    expect(verdict).toBe('pass');
    expect(unread.map(({ id }) => id)).toEqual(Object.keys(expected).filter((id) => id !== 'bar'));
  });

  test.each([
    ['a post too wide', 'socket.width', +0.12, 'rework', 'flat file'],
    ['a post too thin', 'socket.width', -0.15, 'reprint', 'too-small'],
    ['a slot too narrow', 'bar', -0.16, 'rework', 'needle file'],
    ['a slot too wide', 'bar', +0.2, 'reprint', 'too-small'],
    ['a mouth too narrow for any file', 'mouth', -0.2, 'reprint', 'slot-too-narrow'],
    ['a run with round ends', 'bar.run', -0.5, 'reprint', 'round-ends'],
    ['a post far too wide', 'socket.width', +0.5, 'reprint', 'too-much'],
  ] as const)('%s: %s by %d is %s', (_, id, by, verdict, how) => {
    const one = judge({ [id]: expected[id]! + by }).of(id);
    expect(one.verdict).toBe(verdict);
    expect(one.rework?.tool ?? one.noRework).toBe(how);
  });

  it('what is filed as told passes when it is read again', () => {
    for (const by of [0.08, 0.1, 0.12, 0.15, 0.2]) {
      const before = judge({ 'socket.width': expected['socket.width']! + by }).of('socket.width');
      const { off, aSide, faces } = before.rework ?? { off: 0, aSide: 0, faces: 2 };
      expect(off).toBeCloseTo(aSide * faces, 9);
      const record = aPrint(
        clip,
        { 'socket.width': about(before.print.value) },
        { reworked: ['socket.width'] },
      );
      const stale = inspect(clip, record).sizes[0]!;
      expect(stale.stale).toBe(true);
      const after = { 'socket.width': about(before.print.value - off) };
      const [filed] = inspect(clip, { ...record, inspected: { ...record.inspected!, after } }).sizes;
      expect([filed!.verdict, filed!.stale]).toEqual(['pass', false]);
      // What the printer did shows in what it printed, not in what was filed.
      expect(filed!.deviation.value).toBeCloseTo(by, 2);
    }
  });

  it('drill a round bore with a drill of the trade that leaves it inside its window', () => {
    // Shafts all over a drill's step, held to windows of 0.2 about 0.2.
    for (let shaft = 3; shaft < 3.1; shaft += 0.01) {
      const prepared = hingeJob({ socket: [6], shaft: Array(5).fill(shaft.toFixed(2)) });
      const [size] = inspect(prepared, aPrint(prepared, { shaft: about(shaft) })).sizes;
      const { drill } = size!.rework!;
      expect(drill! * 10).toBeCloseTo(Math.round(drill! * 10), 9);
      expect(drill! - shaft).toBeGreaterThanOrEqual(0.1 - 1e-9);
      expect(drill! - shaft).toBeLessThanOrEqual(0.3 + 1e-9);
    }
    // No drill comes within a window narrower than its steps.
    const narrow = hingeJob({ socket: [6], shaft: Array(5).fill(3.05) }, { fits: { shaft: [0.01, 0.04] } });
    expect(inspect(narrow, aPrint(narrow, { shaft: about(3) })).sizes[0]!.noRework).toBe('no-drill');
  });

  it('more plastic is never looser', () => {
    const widths = Array.from({ length: 30 }, (_, k) => expected['socket.width']! - 0.3 + k * 0.02);
    const found = widths.map((width) => judge({ 'socket.width': width }).of('socket.width'));
    const order = ['above', 'close', 'pass', 'close', 'below'];
    const seen = found.map(({ decision }) => decision).filter((one, k, all) => one !== all[k - 1]);
    expect(seen).toEqual(order);
    for (const [k, { clearance }] of found.entries())
      if (k > 0) expect(clearance.value).toBeLessThan(found[k - 1]!.clearance.value);
  });
});

describe('why', () => {
  it('one parameter of the printer, when it moves several sizes as it would', () => {
    // Walls that print 0.05 a side too far in: bores and slots lose 0.1, outer faces nothing.
    const off = { bar: -0.1, 'bar.run': -0.1, mouth: -0.1 };
    const sizes = Object.fromEntries(Object.entries(off).map(([id, by]) => [id, expected[id]! + by]));
    const { drift, of } = judge({ ...sizes, 'socket.width': expected['socket.width']! });
    expect(drift?.parameter).toBe('boreShrink');
    expect(drift!.now - drift!.was).toBeCloseTo(0.05, 2);
    expect([...drift!.explains].sort()).toEqual(['bar', 'bar.run', 'mouth']);
    expect(of('bar').cause).toBe('drift');
    expect(of('socket.width').cause).toBe('as-expected');
  });

  it('no drift where one size alone is off, however far', () => {
    const { drift, of } = judge({
      ...expected,
      drop: expected.drop! - expected.bar! / 2,
      bar: expected.bar! - 0.2,
    });
    expect(of('bar').cause).toBe('alone');
    expect(drift).toBeUndefined();
  });

  it('a reading of the print that stands apart', () => {
    const readings = { 'socket.width': [...about(expected['socket.width']!), '4.30'] };
    const [one] = inspect(clip, aPrint(clip, readings)).sizes;
    expect(one!.cause).toBe('reading');
    expect(one!.print.remarks.map(({ index }) => index)).toContain(3);
  });

  it('a machine that is read otherwise than when the part was drawn', () => {
    const record = aPrint(clip, { 'socket.width': about(expected['socket.width']!) });
    const again = read(
      demo((job) => {
        Object.assign(job, { callipers: { zero: 0 } });
        job.readings.socketWidth = ['3.87', '3.88', '3.87'];
      }),
    );
    const [one] = inspect(again, record).sizes;
    expect(one!.verdict).toBe('rework');
    expect(one!.cause).toBe('machine');
  });

  it('scatter that is usual explains nothing, in 500 random prints', () => {
    const random = randomness(7);
    const meetings = meetingsOf(clip);
    const record = aPrint(clip, {});
    const readings = printReadings(meetings, record);
    let drifts = 0;
    for (let k = 0; k < 500; k++) {
      const texts = Object.fromEntries(
        meetings
          .filter(({ id }) => id !== 'drop')
          .map(({ id }) => [id, about(expected[id]! + random.normal(0.02) + random.normal(0.01))]),
      );
      const sizes = printSizes(clip, record, readings, texts);
      if (driftOf(meetings, record, sizes) !== undefined) drifts++;
    }
    // One in a hundred by the significance of the test, for each of a few parameters.
    expect(drifts).toBeLessThanOrEqual(15);
  });
});
