import { describe, expect, it } from 'vitest';
import { pilotHole, pilotPlastics } from '../../src/standards/pilotHoles.ts';

describe('pilot holes', () => {
  // A screw maker's table for moulded bosses, worked for a thread of 3.0 mm: hole, boss, engagement.
  it.each([
    ['ABS', 2.4, 6, 6],
    ['PC/ABS', 2.4, 6, 6],
    ['PA6-GF30', 2.4, 6, 5.7],
    ['PBT', 2.25, 5.55, 5.1],
  ] as const)('%s at 3 mm', (plastic, hole, boss, engagement) => {
    const found = pilotHole(plastic, 3);
    expect(found.hole.value).toBeCloseTo(hole, 9);
    expect(found.boss.value).toBeCloseTo(boss, 9);
    expect(found.engagement.value).toBeCloseTo(engagement, 9);
  });

  // From memory of screws for plastics: hole and boss as multiples.
  it.each([
    ['PC', 0.85, 2.5],
    ['POM', 0.75, 1.95],
    ['PP', 0.7, 2],
    ['PS', 0.8, 2],
  ] as const)('%s', (plastic, hole, boss) => {
    const found = pilotHole(plastic, 1);
    expect(found.hole.value).toBeCloseTo(hole, 12);
    expect(found.boss.value).toBeCloseTo(boss, 12);
    expect(found.hole.source).toContain('from memory');
  });

  it.each(pilotPlastics)(
    '%s: hole in the screw, screw in the boss, in proportion, each with its source',
    (plastic) => {
      const [one, three] = [pilotHole(plastic, 1), pilotHole(plastic, 3)];
      for (const key of ['hole', 'boss', 'engagement'] as const) {
        const { value, lo, hi, source } = one[key];
        expect(lo).toBeLessThanOrEqual(value);
        expect(value).toBeLessThanOrEqual(hi);
        expect(three[key].value).toBeCloseTo(3 * value, 12);
        expect(source).toMatch(/table of a maker|from memory|no source/);
      }
      expect(one.hole.hi).toBeLessThan(1);
      expect(one.hole.lo).toBeGreaterThan(0.6);
      expect(one.boss.lo).toBeGreaterThan(1.5);
    },
  );

  it('refuses a screw without thickness', () => {
    expect(() => pilotHole('ABS', 0)).toThrow('above 0 mm');
    expect(() => pilotHole('ABS', Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});
