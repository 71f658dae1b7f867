import { describe, expect, it } from 'vitest';
import type { JobFile } from '../../src/job/schema.ts';
import {
  codeTyped,
  feelOf,
  feels,
  type Wish,
  windowOfFeel,
  windowTyped,
  withWish,
} from '../../viewer/sheets/fit/feel.ts';
import { demo, problemsIn, read } from '../job/demo.ts';

const clip = () => demo() as unknown as JobFile;

describe('codeTyped', () => {
  // Least and greatest clearance, micrometres, by hand from ISO 286-1:2010 (tables 1, 4, 5; ISO 286-2 gives the same
  // limits): H8 at 25 is 0 / +33, f7 -20 / -41; H7 at 40 is 0 / +25, g6 -9 / -25; H7 at 30 is 0 / +21, p6 +22 / +35.
  it.each([
    ['H8/f7', 25, 20, 74],
    ['H7/g6', 40, 9, 50],
    ['H7/p6', 30, -35, -1],
  ])('reads %s at %d mm', (code, size, lo, hi) => {
    const typed = codeTyped(` ${code} `, size);
    if (!('value' in typed)) throw new RangeError(typed.refused);
    expect(typed.value[0] * 1000).toBeCloseTo(lo, 6);
    expect(typed.value[1] * 1000).toBeCloseTo(hi, 6);
  });

  it.each(['', 'H8', 'snug', 'f7/H8', 'H8/f99'])('asks for a code where %j is typed', (code) => {
    expect(codeTyped(code, 25)).toHaveProperty('refused');
  });
});

describe('windowTyped', () => {
  it('understands what a bench writes', () => {
    // 0.01 in is 0.254 mm exactly (international inch, 1959).
    expect(windowTyped('0,05', '.01 in')).toEqual({ value: [0.05, 0.254] });
  });

  it.each([
    ['', '0.2', 'least'],
    ['0.1', 'a bit', 'greatest'],
    ['0.3', '0.1', 'smaller'],
    ['0.2', '0.2', 'smaller'],
  ])('says what is wrong with %j to %j', (least, greatest, word) => {
    const typed = windowTyped(least, greatest);
    expect('refused' in typed && typed.refused).toContain(word);
  });

  // The pipeline is the judge: what the fields take it takes, what they refuse it refuses.
  it.each([
    [-2, 5],
    [-2.01, 0],
    [0, 5.01],
    [0.1, 0.1],
    [0.2, 0.1],
    [-0.1, -0.05],
  ])('and the pipeline agree on %d to %d mm', (lo, hi) => {
    const job = withWish(clip(), 'bar', [lo, hi]);
    const typed = windowTyped(String(lo), String(hi));
    if ('value' in typed) expect(read(job).fits.bar).toEqual({ lo, hi });
    else expect(problemsIn(JSON.stringify(job)).map(({ field }) => field)).toEqual(['fits.bar']);
  });
});

describe('a wish', () => {
  it('is known again by its kind', () => {
    const kinds: (Wish | undefined)[] = [undefined, 'press', 'free', [0.1, 0.2], 'H8/f7'];
    expect(kinds.map(feelOf)).toEqual(['usual', 'press', 'free', 'window', 'code']);
  });

  it('goes into the job and out of it again', () => {
    const job = clip();
    const asked = withWish(withWish(job, 'bar', 'free'), 'socket.width', 'H8/f7');
    expect(read(asked).fits.bar).toBe('free');
    expect(withWish(withWish(asked, 'bar', undefined), 'socket.width', undefined).fits).toEqual({});
    expect(job.fits).toEqual({});
  });

  it('names every class from the tightest to the loosest', () => {
    const lows = feels.map(({ fit }) => windowOfFeel(fit)[0]);
    expect(lows).toEqual([...lows].sort((a, b) => a - b));
    expect(new Set(feels.map(({ fit }) => fit)).size).toBe(4);
  });
});
