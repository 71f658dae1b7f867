import { describe, expect, it } from 'vitest';
import { clearanceHole, clearanceHolesFor } from '../../src/standards/clearanceHoles.ts';
import { isoFit } from '../../src/standards/iso286/isoFit.ts';

// ISO 273:1979: fine, medium, coarse. M1.6 to M10 without M1.8, M4.5, M7 read in a public copy, the others from memory.
const iso273: readonly (readonly [number, number, number, number])[] = [
  [1, 1.1, 1.2, 1.3],
  [1.2, 1.3, 1.4, 1.5],
  [1.4, 1.5, 1.6, 1.8],
  [1.6, 1.7, 1.8, 2.0],
  [1.8, 2.0, 2.1, 2.2],
  [2, 2.2, 2.4, 2.6],
  [2.5, 2.7, 2.9, 3.1],
  [3, 3.2, 3.4, 3.6],
  [3.5, 3.7, 3.9, 4.2],
  [4, 4.3, 4.5, 4.8],
  [4.5, 4.8, 5.0, 5.3],
  [5, 5.3, 5.5, 5.8],
  [6, 6.4, 6.6, 7.0],
  [7, 7.4, 7.6, 8.0],
  [8, 8.4, 9.0, 10.0],
  [10, 10.5, 11.0, 12.0],
  [12, 13, 13.5, 14.5],
  [14, 15, 15.5, 16.5],
  [16, 17, 17.5, 18.5],
  [18, 19, 20, 21],
  [20, 21, 22, 24],
];

describe('clearance holes', () => {
  it.each(iso273)('M%d: ISO 273', (nominal, fine, medium, coarse) => {
    expect(clearanceHole(nominal, 'fine')).toBe(fine);
    expect(clearanceHole(nominal)).toBe(medium);
    expect(clearanceHole(nominal, 'coarse')).toBe(coarse);
    expect(clearanceHolesFor(nominal)).toEqual({ fine, medium, coarse, source: 'ISO 273' });
    expect(nominal).toBeLessThan(fine);
    expect(fine).toBeLessThan(medium);
    expect(medium).toBeLessThan(coarse);
  });

  it('of M3, medium series, is 3.4 +0.18 / 0 (H13, arithmetic on ISO 286)', () => {
    const { hole } = isoFit('H13/h13', clearanceHole(3));
    expect(hole.hi - 3.4).toBeCloseTo(0.18, 9);
    expect(hole.lo).toBe(3.4);
  });

  it('of other screws grow with the screw, pass it, and never undercut the next smaller of ISO 273', () => {
    let last = 0;
    for (let diameter = 0.5; diameter <= 20; diameter += 0.0137) {
      const { fine, medium, coarse, source } = clearanceHolesFor(diameter);
      expect(fine).toBeGreaterThan(diameter);
      expect(medium).toBeGreaterThan(fine);
      expect(coarse).toBeGreaterThan(medium);
      expect(source).toContain('no source');
      const smaller = iso273.filter(([size]) => size < diameter).at(-1);
      if (smaller) expect(medium - diameter).toBeGreaterThanOrEqual(smaller[2] - smaller[0] - 0.1001);
      expect(diameter).toBeGreaterThan(last);
      last = diameter;
    }
    // #4: the gap of M3, 0.4 mm.
    expect(clearanceHolesFor(2.8448).medium).toBeCloseTo(3.2448, 9);
  });

  it.each([0, -1, 20.01, Number.NaN])('has none for %d mm', (diameter) => {
    const refused = expect.objectContaining({ code: 'screw_size_unknown' });
    expect(() => clearanceHolesFor(diameter)).toThrow(refused);
    expect(() => clearanceHole(diameter)).toThrow(refused);
  });
  it('ISO 273 has none for M2.2', () => expect(() => clearanceHole(2.2)).toThrow('one of M1, M1.2'));
});
