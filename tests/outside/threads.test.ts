import { describe, expect, it } from 'vitest';
import { britishAssociationThreads } from '../../src/standards/threads/britishAssociationThreads.ts';
import { metricThreads } from '../../src/standards/threads/metricThreads.ts';
import { tappingThreads } from '../../src/standards/threads/tappingThreads.ts';
import { thread, threads } from '../../src/standards/threads/threads.ts';
import { unifiedThreads } from '../../src/standards/threads/unifiedThreads.ts';

// ISO 724:1993, table 1: pitch, pitch diameter d2 and minor diameter D1, mm; coarse of the first choice and M3.5 as in
// the published values, the rest from memory of the table.
const iso724: readonly (readonly [designation: string, pitch: number, d2: number, D1: number])[] = [
  ['M1.6', 0.35, 1.373, 1.221],
  ['M1.6 x 0.2', 0.2, 1.47, 1.383],
  ['M1.8', 0.35, 1.573, 1.421],
  ['M1.8 x 0.2', 0.2, 1.67, 1.583],
  ['M2', 0.4, 1.74, 1.567],
  ['M2 x 0.25', 0.25, 1.838, 1.729],
  ['M2.2', 0.45, 1.908, 1.713],
  ['M2.2 x 0.25', 0.25, 2.038, 1.929],
  ['M2.5', 0.45, 2.208, 2.013],
  ['M2.5 x 0.35', 0.35, 2.273, 2.121],
  ['M3', 0.5, 2.675, 2.459],
  ['M3 x 0.35', 0.35, 2.773, 2.621],
  ['M3.5', 0.6, 3.11, 2.85],
  ['M3.5 x 0.35', 0.35, 3.273, 3.121],
  ['M4', 0.7, 3.545, 3.242],
  ['M4 x 0.5', 0.5, 3.675, 3.459],
  ['M4.5', 0.75, 4.013, 3.688],
  ['M4.5 x 0.5', 0.5, 4.175, 3.959],
  ['M5', 0.8, 4.48, 4.134],
  ['M5 x 0.5', 0.5, 4.675, 4.459],
  ['M5.5 x 0.5', 0.5, 5.175, 4.959],
  ['M6', 1, 5.35, 4.917],
  ['M6 x 0.75', 0.75, 5.513, 5.188],
  ['M7', 1, 6.35, 5.917],
  ['M7 x 0.75', 0.75, 6.513, 6.188],
  ['M8', 1.25, 7.188, 6.647],
  ['M8 x 1', 1, 7.35, 6.917],
  ['M8 x 0.75', 0.75, 7.513, 7.188],
  ['M9', 1.25, 8.188, 7.647],
  ['M9 x 1', 1, 8.35, 7.917],
  ['M9 x 0.75', 0.75, 8.513, 8.188],
  ['M10', 1.5, 9.026, 8.376],
  ['M10 x 1.25', 1.25, 9.188, 8.647],
  ['M10 x 1', 1, 9.35, 8.917],
  ['M10 x 0.75', 0.75, 9.513, 9.188],
];

describe('metric threads', () => {
  it.each(iso724)('%s: ISO 724', (designation, pitch, d2, D1) => {
    const found = thread(designation);
    expect(found.pitch).toBe(pitch);
    // Half a unit of the last printed figure, and the rounding of halves either way.
    expect(Math.abs(found.basic!.pitchDiameter - d2)).toBeLessThan(0.00051);
    expect(Math.abs(found.basic!.minorDiameter - D1)).toBeLessThan(0.00051);
  });

  it('are those of the table and no others', () => {
    expect(metricThreads.map(({ designation }) => designation).sort()).toEqual(
      iso724.map(([designation]) => designation).sort(),
    );
  });

  // ISO 965-2:1998, limits of the major diameter of external threads 6g, mm; from memory of the table.
  it.each([
    ['M1.6', 1.581, 1.496],
    ['M2', 1.981, 1.886],
    ['M2.5', 2.48, 2.38],
    ['M3', 2.98, 2.874],
    ['M3.5', 3.479, 3.354],
    ['M4', 3.978, 3.838],
    ['M5', 4.976, 4.826],
    ['M6', 5.974, 5.794],
    ['M7', 6.974, 6.794],
    ['M8', 7.972, 7.76],
    ['M8 x 1', 7.974, 7.794],
    ['M10', 9.968, 9.732],
    ['M10 x 1.25', 9.972, 9.76],
    ['M10 x 1', 9.974, 9.794],
  ])('%s screws are %d to %d across: ISO 965-2', (designation, hi, lo) => {
    expect(thread(designation).outside.usual).toEqual({ lo, hi });
  });

  it.each(metricThreads)('$designation keeps to the formulas of ISO 965-1', ({ nominal, pitch, outside }) => {
    // es = -(15 + 11 P), Td(6) = 180 P^(2/3) - 3.15 / P^(1/2), micrometres, the latter rounded to preferred numbers of the
    // series R40, 6 % apart. The printed es of pitch 0.75 is -22 for -23.25; the others are within their rounding.
    const es = 1000 * (outside.usual.hi - nominal);
    const Td = 1000 * (outside.usual.hi - outside.usual.lo);
    expect(Math.abs(es + 15 + 11 * pitch)).toBeLessThan(pitch === 0.75 ? 1.3 : 0.8);
    const formula = 180 * pitch ** (2 / 3) - 3.15 / Math.sqrt(pitch);
    expect(Math.abs(Td / formula - 1)).toBeLessThan(0.035);
  });
});

// ASME B1.1, table 1: major diameter in inches and mm, threads per inch; read in a public copy.
// Limits of the major diameter 2A, inches: ASME B1.1, table 2, from memory.
const b11: readonly (readonly [string, number, number, number, number, number])[] = [
  ['#2-56 UNC', 0.086, 2.1844, 56, 0.0854, 0.0813],
  ['#2-64 UNF', 0.086, 2.1844, 64, 0.0854, 0.0816],
  ['#3-48 UNC', 0.099, 2.5146, 48, 0.0983, 0.0938],
  ['#3-56 UNF', 0.099, 2.5146, 56, 0.0983, 0.0942],
  ['#4-40 UNC', 0.112, 2.8448, 40, 0.1112, 0.1061],
  ['#4-48 UNF', 0.112, 2.8448, 48, 0.1113, 0.1068],
  ['#5-40 UNC', 0.125, 3.175, 40, 0.1242, 0.1191],
  ['#5-44 UNF', 0.125, 3.175, 44, 0.1243, 0.1195],
  ['#6-32 UNC', 0.138, 3.5052, 32, 0.1372, 0.1312],
  ['#6-40 UNF', 0.138, 3.5052, 40, 0.1372, 0.1321],
  ['#8-32 UNC', 0.164, 4.1656, 32, 0.1631, 0.1571],
  ['#8-36 UNF', 0.164, 4.1656, 36, 0.1632, 0.1577],
  ['#10-24 UNC', 0.19, 4.826, 24, 0.189, 0.1818],
  ['#10-32 UNF', 0.19, 4.826, 32, 0.1891, 0.1831],
  ['1/4-20 UNC', 0.25, 6.35, 20, 0.2489, 0.2408],
  ['1/4-28 UNF', 0.25, 6.35, 28, 0.249, 0.2425],
];

describe('unified threads', () => {
  it.each(b11)('%s: ASME B1.1', (designation, inches, mm, perInch, most, least) => {
    const found = thread(designation);
    expect(found.nominal).toBeCloseTo(mm, 9);
    expect(found.nominal).toBeCloseTo(inches * 25.4, 9);
    expect(found.pitch).toBeCloseTo(25.4 / perInch, 12);
    // To one unit of the last printed figure: allowance and tolerance are each rounded before they are taken off.
    expect(Math.abs(found.outside.usual.hi / 25.4 - most)).toBeLessThan(0.000101);
    expect(Math.abs(found.outside.usual.lo / 25.4 - least)).toBeLessThan(0.000101);
    const number = /^#(\d+)/.exec(designation)?.[1];
    if (number !== undefined) expect(inches).toBeCloseTo(0.06 + 0.013 * Number(number), 12);
  });

  // ASME B1.1, pitch diameter of the basic profile, inches, from memory of the table.
  it.each([
    ['#4-40 UNC', 0.0958],
    ['#6-32 UNC', 0.1177],
    ['#8-32 UNC', 0.1437],
    ['#10-24 UNC', 0.1629],
    ['#10-32 UNF', 0.1697],
    ['1/4-20 UNC', 0.2175],
    ['1/4-28 UNF', 0.2268],
  ])('%s has the pitch diameter %d inch', (designation, inches) => {
    expect(thread(designation).basic!.pitchDiameter / 25.4).toBeCloseTo(inches, 4);
  });

  it('are those of the table and no others', () => {
    expect(unifiedThreads.map(({ designation }) => designation)).toEqual(
      b11.map(([designation]) => designation),
    );
  });
});

describe('British Association threads', () => {
  // BS 93: pitch and diameter in mm; diameter in inches and threads per inch read in a public copy, which takes the latter
  // from the pitch in inches to four decimals.
  it.each([
    ['0BA', 1, 6, 0.2362, 25.38],
    ['1BA', 0.9, 5.3, 0.2087, 28.25],
    ['2BA', 0.81, 4.7, 0.185, 31.35],
    ['3BA', 0.73, 4.1, 0.1614, 34.84],
    ['4BA', 0.66, 3.6, 0.1417, 38.46],
    ['5BA', 0.59, 3.2, 0.126, 43.1],
    ['6BA', 0.53, 2.8, 0.1102, 47.85],
    ['7BA', 0.48, 2.5, 0.0984, 52.91],
    ['8BA', 0.43, 2.2, 0.0866, 59.17],
  ])('%s: BS 93', (designation, pitch, diameter, inches, perInch) => {
    const found = thread(designation);
    expect(found).toMatchObject({ pitch, nominal: diameter, angle: 47.5 });
    expect(found.nominal / 25.4).toBeCloseTo(inches, 4);
    expect(1 / Number((found.pitch / 25.4).toFixed(4))).toBeCloseTo(perInch, 2);
    expect(found.nominal - found.basic!.minorDiameter).toBeCloseTo(2 * 0.6 * pitch, 12);
  });

  it('are nine', () => expect(britishAssociationThreads).toHaveLength(9));
});

describe('tapping screw threads', () => {
  // ISO 1478:1999, table 1, from memory.
  it.each([
    ['ST1.9', 0.6, 1.9, 1.76],
    ['ST2.2', 0.8, 2.24, 2.1],
    ['ST2.6', 0.9, 2.57, 2.43],
    ['ST2.9', 1.1, 2.9, 2.76],
    ['ST3.3', 1.3, 3.3, 3.12],
    ['ST3.5', 1.3, 3.53, 3.35],
    ['ST3.9', 1.3, 3.91, 3.73],
    ['ST4.2', 1.4, 4.22, 4.04],
    ['ST4.8', 1.6, 4.8, 4.62],
    ['ST5.5', 1.8, 5.46, 5.28],
    ['ST6.3', 1.8, 6.25, 6.03],
  ])('%s: ISO 1478', (designation, pitch, hi, lo) => {
    expect(thread(designation)).toMatchObject({ pitch, basic: null, outside: { usual: { lo, hi } } });
  });

  it('are coarser than any machine screw of their size', () => {
    for (const { nominal, pitch } of tappingThreads)
      for (const machine of threads)
        if (machine.system !== 'tapping' && machine.nominal <= nominal)
          expect(machine.pitch).toBeLessThan(pitch);
  });
});

describe('all threads', () => {
  it('have each a name of their own, and sizes that nest', () => {
    expect(new Set(threads.map(({ designation }) => designation)).size).toBe(threads.length);
    for (const { designation, nominal, pitch, basic, outside, met, source } of threads) {
      const { usual, any } = outside;
      expect(any.lo, designation).toBeLessThanOrEqual(usual.lo);
      expect(usual.lo, designation).toBeLessThan(usual.hi);
      expect(usual.hi, designation).toBeLessThanOrEqual(any.hi);
      // A screw is never larger than its thread's nominal diameter; tapping sizes are names rounded to a tenth.
      expect(any.hi, designation).toBeLessThanOrEqual(nominal + (basic ? 0 : 0.05));
      if (basic) {
        expect(basic.minorDiameter, designation).toBeLessThan(basic.pitchDiameter);
        expect(basic.pitchDiameter, designation).toBeLessThan(any.lo);
        expect(nominal - basic.minorDiameter, designation).toBeGreaterThan(pitch);
      }
      expect(met).toBeGreaterThan(0);
      expect(source.length).toBeGreaterThan(8);
    }
  });

  it('are found by name, capitals and blanks or not', () => {
    expect(thread(' m5X0.5 ').designation).toBe('M5 x 0.5');
    expect(thread('#4-40unc').nominal).toBeCloseTo(2.8448, 9);
    expect(() => thread('M3.7')).toThrow(expect.objectContaining({ code: 'screw_size_unknown' }));
  });
});
