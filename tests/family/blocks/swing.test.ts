import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { swing } from '../../../src/family/blocks/swing.ts';

describe('swing of a hinged bar', () => {
  it('is what the triangle 3, 4, 5 gives', () => {
    const end = swing({ reach: 5, rise: 4, travel: 7 });
    // 3 beside the hinge at first, 5 when level after 4 mm, 4 at the end, 3 below the hinge line.
    expect([0, 4, 7].map(end.slideAt)).toEqual([0, 2, 1]);
    expect(end.slide).toEqual({ least: 0, greatest: 2, range: 2, middle: 1 });
    expect(end.slope).toBeCloseTo(Math.atan2(4, 3), 12);
    expect(end.turnAt(7)).toBeCloseTo(Math.atan2(4, 3) + Math.atan2(3, 4), 12);
  });

  it('keeps the bar as long as it is: hinge to end is the reach all the way', () => {
    const lengths = fc.record({
      reach: fc.double({ min: 5, max: 60, noNaN: true }),
      rise: fc.double({ min: -4.9, max: 4.9, noNaN: true }),
      part: fc.double({ min: 0, max: 1, noNaN: true }),
      travel: fc.double({ min: 0.1, max: 8, noNaN: true }),
    });
    fc.assert(
      fc.property(lengths, ({ reach, rise, part, travel }) => {
        const one = swing({ reach, rise, travel });
        fc.pre(one.reaches);
        const down = part * travel;
        const beside = reach * Math.cos(one.slope) + one.slideAt(down);
        expect(Math.hypot(beside, rise - down)).toBeCloseTo(reach, 9);
        expect(Math.sin(one.slope - one.turnAt(down)) * reach).toBeCloseTo(rise - down, 9);
        expect(one.slideAt(down)).toBeLessThanOrEqual(one.slide.greatest + 1e-12);
        expect(one.slideAt(down)).toBeGreaterThanOrEqual(one.slide.least - 1e-12);
      }),
      { seed: 20261125 },
    );
  });

  it('is furthest at an end of the travel when the bar never lies level', () => {
    // Below its hinge line throughout: 4, then 3 beside it. Above it throughout: 3, then 4.
    expect(swing({ reach: 5, rise: -3, travel: 1 }).slide).toMatchObject({ least: -1, greatest: 0 });
    expect(swing({ reach: 5, rise: 4, travel: 1 }).slide).toMatchObject({ least: 0, greatest: 1 });
  });

  it.each([
    ['at first', { reach: 5, rise: 5.1, travel: 1 }],
    ['at the end', { reach: 5, rise: 1, travel: 6.1 }],
  ])('of a bar too short %s is not a number', (_, lengths) => {
    const short = swing(lengths);
    expect(short.reaches).toBe(false);
    expect(short.slide.range).toBeNaN();
  });
});
