import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import {
  identifyScrew,
  type ScrewIdentity,
  type ScrewReadings,
} from '../../src/standards/threads/identifyScrew.ts';
import { pitchOver } from '../../src/standards/threads/pitchOver.ts';
import { tellApart } from '../../src/standards/threads/tellApart.ts';
import { thread, threads } from '../../src/standards/threads/threads.ts';

/** Standard uncertainty of the usual digital callipers on such a screw, mm. */
const U = 0.023;

/** Readings of a diameter, and of a length over so many threads. */
const read = (diameter: number, length?: number, count = 10): ScrewReadings => ({
  diameter: { value: diameter, u: U },
  ...(length === undefined ? {} : { pitch: pitchOver({ value: length, u: U }, count) }),
});
const names = ({ candidates }: ScrewIdentity): readonly string[] =>
  candidates.map(({ thread: { designation } }) => designation);
const middle = ({ outside: { usual } }: (typeof threads)[number]): number => (usual.lo + usual.hi) / 2;

describe('a screw as made, pitch read over ten threads', () => {
  it.each(threads)('$designation is found', (one) => {
    const found = identifyScrew(read(middle(one), 10 * one.pitch));
    const match = found.candidates.find((each) => each.thread === one);
    expect(match?.agreement).toBeCloseTo(1, 9);
    expect(match?.diameterOff).toBe(0);
    // Rare threads may stand behind a common one as like as two eggs; never behind more than two.
    expect(names(found).indexOf(one.designation)).toBeLessThanOrEqual(2);
    expect(found.none).toBeLessThan(0.2);
  });
});

describe('an identity', () => {
  // Nominal diameter less the tolerance is what a real screw has: worked by hand from the published limits.
  it.each([
    [4.92, 8.0, 'M5'],
    [4.79, 7.94, '#10-32 UNF'],
    [4.62, 8.1, '2BA'],
    [2.93, 5.0, 'M3'],
    [2.76, 6.35, '#4-40 UNC'],
    [3.41, 7.94, '#6-32 UNC'],
    [3.92, 7.0, 'M4'],
    [4.07, 7.94, '#8-32 UNC'],
    [6.22, 12.7, '1/4-20 UNC'],
    [3.52, 6.6, '4BA'],
    [2.83, 11.0, 'ST2.9'],
  ])('of %d mm with %d mm over ten threads is %s', (diameter, length, designation) => {
    const found = identifyScrew(read(diameter, length));
    expect(names(found)[0]).toBe(designation);
    expect(found.candidates[0]!.agreement).toBeGreaterThan(0.5);
  });

  it('is wide from a diameter alone, and says to measure the pitch', () => {
    const found = identifyScrew(read(2.84));
    expect(names(found)).toEqual(expect.arrayContaining(['M3', '#4-40 UNC', 'ST2.9', '6BA']));
    expect(found.candidates[0]!.likely).toBeLessThan(0.7);
    expect(found.candidates.every(({ pitchOff }) => pitchOff === null)).toBe(true);
    expect(found.tests[0]).toMatchObject({ by: 'pitch' });
  });

  it('narrows with the pitch', () => {
    const [wide, narrow] = [identifyScrew(read(2.84)), identifyScrew(read(2.84, 6.35))];
    expect(narrow.candidates.length).toBeLessThan(wide.candidates.length);
    expect(names(narrow)).toEqual(['#4-40 UNC']);
    const out = narrow.ruledOut.find((each) => each.thread.designation === 'M3');
    expect(out?.pitchOff).toBeCloseTo(0.135, 9);
    expect(out?.diameterOff).toBe(0);
  });

  it('is none where no thread agrees: a diameter of #4 with a pitch of #6', () => {
    const found = identifyScrew(read(2.84, 7.94));
    expect(found.candidates).toEqual([]);
    expect(found.tests).toEqual([]);
    expect(found.none).toBeGreaterThan(0.99);
    expect(found.ruledOut).toHaveLength(threads.length);
  });

  it('takes one coarse reading of the pitch for what it is', () => {
    // Over one thread 0.79 may be 0.635 read badly; over ten it cannot.
    const found = identifyScrew(read(2.84, 0.79, 1));
    expect(names(found)).toEqual(['#4-40 UNC']);
    expect(found.candidates[0]!.agreement).toBeLessThan(0.05);
    expect(found.none).toBeGreaterThan(0.1);
  });

  it('is a law of probability, and judges each thread once', () => {
    const random = xoroshiro128plus(20);
    for (let k = 0; k < 400; k++) {
      const at = (lo: number, hi: number): number => lo + (hi - lo) * uniformFloat64(random);
      const found = identifyScrew(k % 3 === 0 ? read(at(1, 11)) : read(at(1, 11), at(2, 20), 10));
      const all = [...found.candidates, ...found.ruledOut];
      expect(new Set(all.map((each) => each.thread)).size).toBe(threads.length);
      expect(all.reduce((sum, { likely }) => sum + likely, found.none)).toBeCloseTo(1, 9);
      const likely = found.candidates.map((each) => each.likely);
      expect(likely).toEqual(likely.toSorted((a, b) => b - a));
      for (const { agreement } of found.candidates) expect(agreement).toBeGreaterThanOrEqual(0.001);
      for (const { agreement } of found.ruledOut) expect(agreement).toBeLessThan(0.001);
    }
  });

  it('agrees as often as it says, for screws made and read at random', () => {
    // An independent route: M4 screws of any permitted size, read with normal errors (Box-Muller). Agreement falls below
    // a level no more often than that level, and the true thread is not ruled out.
    const random = xoroshiro128plus(4);
    const normal = (): number =>
      Math.sqrt(-2 * Math.log(1 - uniformFloat64(random))) * Math.cos(2 * Math.PI * uniformFloat64(random));
    const one = thread('M4');
    const { lo, hi } = one.outside.usual;
    const runs = 4000;
    let below = 0;
    let first = 0;
    for (let k = 0; k < runs; k++) {
      const diameter = lo + (hi - lo) * uniformFloat64(random) + U * normal();
      const pitch = pitchOver({ value: 10 * one.pitch + Math.hypot(U, 0.05) * normal(), u: U }, 10);
      const found = identifyScrew({ diameter: { value: diameter, u: U }, pitch });
      const match = [...found.candidates, ...found.ruledOut].find((each) => each.thread === one)!;
      if (match.agreement < 0.05) below++;
      if (found.candidates[0]?.thread === one) first++;
    }
    expect(below / runs).toBeLessThan(0.05);
    expect(below).toBeGreaterThan(0);
    expect(first / runs).toBeGreaterThan(0.99);
  });

  it.each([
    [0, 0.02],
    [-3, 0.02],
    [3, 0],
    [Number.NaN, 0.02],
    [Number.POSITIVE_INFINITY, 0.02],
  ])('requires values: %d with %d', (value, u) => {
    const good = { value: 3, u: 0.02 };
    expect(() => identifyScrew({ diameter: { value, u } })).toThrow('diameter of a screw requires');
    expect(() => identifyScrew({ diameter: good, pitch: { value, u } })).toThrow('pitch of a screw requires');
  });
});

describe('what tells two threads apart', () => {
  it('is the length over the fewest threads that differ', () => {
    const [test] = tellApart(thread('M3'), thread('#4-40 UNC'));
    expect(test).toMatchObject({ by: 'pitch', threads: 5 });
    expect(test?.by === 'pitch' && test.expected).toEqual([2.5, 5 * 0.635]);
  });

  it('is the diameter where the pitch is too like: M5 and #10-32', () => {
    expect(tellApart(thread('M5'), thread('#10-32 UNF')).map(({ by }) => by)).toEqual(['diameter', 'nut']);
  });

  it('is the angle where both are alike: 6BA and #4-48', () => {
    expect(tellApart(thread('6BA'), thread('#4-48 UNF'))[0]).toMatchObject({
      by: 'angle',
      expected: [47.5, 60],
    });
  });

  it('is the tip of a tapping screw', () => {
    const tests = tellApart(thread('ST2.9'), thread('M3'));
    expect(tests).toContainEqual(expect.objectContaining({ by: 'tip', tapping: 'ST2.9' }));
    expect(tests.some(({ by }) => by === 'nut')).toBe(false);
  });

  it('is there for every pair, and differs by what it claims', () => {
    for (const a of threads)
      for (const b of threads) {
        if (a === b) continue;
        const tests = tellApart(a, b);
        expect(tests.length).toBeGreaterThan(0);
        for (const test of tests) {
          expect(test.between).toEqual([a.designation, b.designation]);
          if (test.by === 'pitch') {
            expect(Math.abs(test.expected[0] - test.expected[1])).toBeGreaterThanOrEqual(0.22);
            expect([5, 10, 20]).toContain(test.threads);
          }
          if (test.by === 'diameter') {
            const [one, other] = test.expected;
            expect(one.hi < other.lo || other.hi < one.lo).toBe(true);
          }
        }
      }
  });
});

it('a pitch over n threads is n times as well known', () => {
  const [one, ten] = [pitchOver({ value: 0.8, u: U }, 1), pitchOver({ value: 8, u: U }, 10)];
  expect(ten.value).toBeCloseTo(one.value, 12);
  expect(ten.u).toBeCloseTo(one.u / 10, 12);
  expect(one.u).toBeGreaterThan(U);
});
