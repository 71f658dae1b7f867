import { describe, expect, it } from 'vitest';
import { clearanceHole } from '../../src/standards/clearanceHoles.ts';
import { headKinds, screwHead } from '../../src/standards/screwHeads.ts';
import { washer } from '../../src/standards/washers.ts';

// ISO 4762:2004, table 1: greatest knurled diameter, greatest height. From memory.
const caps = [
  [1.6, 3.14, 1.6],
  [2, 3.98, 2],
  [2.5, 4.68, 2.5],
  [3, 5.68, 3],
  [4, 7.22, 4],
  [5, 8.72, 5],
  [6, 10.22, 6],
] as const;
// ISO 7045:2011, table 1: greatest diameter and height. From memory.
const pans = [
  [1.6, 3.2, 1.3],
  [2, 4, 1.6],
  [2.5, 5, 2.1],
  [3, 5.6, 2.4],
  [3.5, 7, 2.6],
  [4, 8, 3.1],
  [5, 9.5, 3.7],
  [6, 12, 4.6],
] as const;
// ISO 7046-1:2011 and ISO 2009:2011, table 1: greatest real diameter and height. From memory.
const countersinks = [
  [1.6, 3, 1],
  [2, 3.8, 1.2],
  [2.5, 4.7, 1.5],
  [3, 5.5, 1.65],
  [3.5, 7.3, 2.35],
  [4, 8.4, 2.7],
  [5, 9.3, 2.7],
  [6, 11.3, 3.3],
] as const;

describe('heads', () => {
  it.each(caps)('cap head of M%d', (size, diameter, height) => {
    expect(screwHead('cap', size)).toMatchObject({ diameter, height, cone: null, sharp: diameter });
    // A cap head is as high as the screw is thick.
    expect(height).toBe(size);
  });

  it.each(pans)('pan head of M%d', (size, diameter, height) => {
    expect(screwHead('pan', size)).toMatchObject({ diameter, height, cone: null, sharp: diameter });
  });

  it.each(countersinks)('countersunk head of M%d', (size, diameter, height) => {
    const head = screwHead('countersunk', size);
    expect(head).toMatchObject({ diameter, height, cone: 90 });
    // Geometry of the cone, independent of the table: a sharp edge of 90 degrees is (dk - d) / 2 above the shank.
    expect((head.sharp - size) / 2).toBeCloseTo(height, 9);
    expect(head.sharp).toBeGreaterThan(head.diameter);
  });

  it.each(headKinds)('%s heads grow with the screw and cover its clearance hole', (kind) => {
    let last = 0;
    for (const size of [1.6, 2, 2.5, 3, 4, 5, 6]) {
      const { diameter } = screwHead(kind, size);
      expect(diameter).toBeGreaterThan(last);
      expect(diameter).toBeGreaterThan(clearanceHole(size, 'coarse'));
      last = diameter;
    }
  });

  it('are refused where the table has none', () => {
    expect(() => screwHead('cap', 3.5)).toThrow('one of M1.6, M2, M2.5, M3, M4, M5, M6');
    expect(() => screwHead('pan', 8)).toThrow(expect.objectContaining({ code: 'screw_size_unknown' }));
  });
});

describe('washers', () => {
  // ISO 7089:2000, table 1: outside diameter, thickness and its greatest. From memory.
  it.each([
    [1.6, 4, 0.3, 0.35],
    [2, 5, 0.3, 0.35],
    [2.5, 6, 0.5, 0.55],
    [3, 7, 0.5, 0.55],
    [3.5, 8, 0.5, 0.55],
    [4, 9, 0.8, 0.9],
    [5, 10, 1, 1.1],
    [6, 12, 1.6, 1.8],
  ])('of M%d', (size, outside, nominal, greatest) => {
    expect(washer(size)).toMatchObject({ outside, thickness: { nominal, greatest } });
    // Washers of the normal series have the hole of the fine series of ISO 273, which is another table.
    expect(washer(size).hole).toBe(clearanceHole(size, 'fine'));
    expect(washer(size).outside).toBeGreaterThan(screwHead('pan', size).diameter - 0.1);
  });

  it('are refused where the table has none', () => {
    expect(() => washer(7)).toThrow(expect.objectContaining({ code: 'screw_size_unknown' }));
  });
});
