// Which strokes make which digit is the usual seven-stroke table, from memory of any numeric display: a top, b and c
// right, d bottom, e and f left, g middle.
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { digit, numberBlocks, numberWidth } from '../../../src/printer/coupon/digits.ts';
import { printEstimate } from '../../../src/printer/coupon/printEstimate.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { loadKernel, type Manifold, Scope } from '../../../src/solid/kernel.ts';
import { meshOf } from '../../../src/solid/meshOf.ts';
import { realise } from '../../../src/solid/realise.ts';
import { union } from '../../../src/solid/shape.ts';
import { faultsOf, soundnessOf } from '../../../src/solid/soundness.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { crossings, sectionAt } from '../measure.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterEach(() => scope.close());

const flat = { at: [0, 0, 3] as Vec3, along: [1, 0, 0] as Vec3, up: [0, 1, 0] as Vec3 };
const usual = { inside: 0.3, outside: 0.4, lineWidth: 0.45 };
const solidOf = (number: number, place = flat, how = usual): Manifold =>
  realise(scope, union(...numberBlocks(number, place, how)));

const TABLE = {
  0: 'abcdef',
  2: 'abdeg',
  3: 'abcdg',
  4: 'bcfg',
  5: 'acdfg',
  6: 'acdefg',
  7: 'abc',
  8: 'abcdefg',
  9: 'abcdfg',
} as const;

describe('numberBlocks', () => {
  it.each(Object.entries(TABLE))('draws a %s of strokes %s', (value, strokes) => {
    const solid = solidOf(Number(value));
    expect(faultsOf(soundnessOf(meshOf(solid)), null)).toEqual([]);
    const contours = sectionAt(solid, 3.2);
    const width = numberWidth(Number(value));
    const [left, right] = [0.2, width - 0.2];
    const places: Readonly<Record<string, readonly [number, number]>> = {
      a: [width / 2, 3.8],
      b: [right, 3],
      c: [right, 1],
      d: [width / 2, 0.2],
      e: [left, 1],
      f: [left, 3],
      g: [width / 2, 2],
    };
    const filled = Object.entries(places)
      .filter(([, [x, y]]) => crossings(contours, 'x', y).filter((wall) => wall < x).length % 2 === 1)
      .map(([name]) => name)
      .join('');
    expect(filled).toBe(strokes);
  });

  it('draws a 1 as one upright stroke', () => {
    const contours = sectionAt(solidOf(1), 3.2);
    for (const y of [0.1, 1, 2, 3, 3.9]) {
      const walls = crossings(contours, 'x', y);
      expect(walls).toHaveLength(2);
      expect(walls[1]! - walls[0]!).toBeCloseTo(0.55, 5);
    }
  });

  it('stands 4 mm tall, as wide as it says, proud of the surface and rooted in it', () => {
    for (const number of [7, 11, 23, 108]) {
      const { min, max } = solidOf(number).boundingBox();
      expect(max[1] - min[1]).toBeCloseTo(digit.height, 6);
      expect(max[0]).toBeCloseTo(numberWidth(number), 6);
      expect([min[2], max[2]].map((z) => Math.round(z * 1e4) / 1e4)).toEqual([2.7, 3.4]);
    }
  });

  it('stands on upright faces too', () => {
    // The left side of a block, read from the left.
    const { min, max } = solidOf(24, { at: [1, 9, 2], along: [0, -1, 0], up: [0, 0, 1] }).boundingBox();
    expect(max[1] - min[1]).toBeCloseTo(numberWidth(24), 6);
    expect(max[2] - min[2]).toBeCloseTo(4, 6);
    expect(min[0]).toBeCloseTo(0.6, 6);
    expect(max[0]).toBeCloseTo(1.3, 6);
  });

  it('draws strokes of one line, thin lines a little wider', () => {
    for (const [lineWidth, stroke] of [
      [0.25, 0.55],
      [0.6, 0.6],
      [0.9, 0.9],
    ] as const) {
      const walls = crossings(sectionAt(solidOf(7, flat, { ...usual, lineWidth }), 3.2), 'x', 1);
      expect(walls[1]! - walls[0]!).toBeCloseTo(stroke, 5);
    }
  });

  it('refuses what is no whole number', () => {
    expect(() => numberBlocks(-1, flat, usual)).toThrow('whole number');
    expect(() => numberBlocks(1.5, flat, usual)).toThrow('whole number');
  });
});

describe('printEstimate', () => {
  it('is the sum of laying, layers and warming up, by hand', () => {
    // 900 mm3 at 0.45 x 0.2 x 50 mm3/s: 200 s; 10 layers of 3 s; 4 min. PLA 1.24 g/cm3.
    const found = printEstimate(900, 2, defaultPrinter);
    expect(found.minutes).toBe(Math.round(4 + 230 / 60));
    expect(found.mass).toBeCloseTo(1.116, 9);
    expect(printEstimate(900, 2, { ...defaultPrinter, material: 'PETG' }).mass).toBeCloseTo(0.9 * 1.27, 9);
    expect(printEstimate(900, 2, { ...defaultPrinter, material: 'clay' }).mass).toBeCloseTo(1.116, 9);
  });
});
