import { describe, expect, it } from 'vitest';
import { excessSpread } from '../../src/measure/excessSpread.ts';
import { defaultCallipers, dimensionOf, type ReadingSpec } from '../../src/measure/index.ts';
import { likelyNominals } from '../../src/measure/likelyNominals.ts';
import { outliers } from '../../src/measure/outliers.ts';

const socket: ReadingSpec = { id: 'socket', name: 'Socket width', jaw: 'outside', from: 1, to: 100 };
const remarks = (values: readonly number[], spec = socket, callipers = defaultCallipers) =>
  dimensionOf(spec, values, callipers).remarks;
const kinds = (values: readonly number[], spec = socket) =>
  remarks(values, spec).map(({ kind, index }) => (index === undefined ? kind : `${kind} ${index}`));

// 4.23 is near no nominal size, so that the other remarks stand alone.
describe('outlier', () => {
  it('points at the one of three that stands apart, and keeps it in the mean', () => {
    const dimension = dimensionOf(socket, [4.23, 4.24, 4.53], defaultCallipers);
    expect(dimension.remarks[0]).toMatchObject({
      kind: 'outlier',
      index: 2,
      value: 4.53,
    });
    expect(dimension.remarks[0]!.sentence).toMatch(
      /^Socket width: reading 3 is 4\.53 mm, 0\.29 mm from .*[^.]$/,
    );
    expect(dimension.value).toBeCloseTo((4.23 + 4.24 + 4.53) / 3, 12);
  });

  it.each([
    [[4.23, 4.23, 4.24], 'a jitter of one step'],
    [[4.23, 4.23, 4.23, 4.23, 4.24], 'a jitter of one step among equal readings'],
    [[4.2, 4.23, 4.26], 'honest scatter'],
    [[4.23, 4.53], 'two readings, of which either may be wrong'],
    [[4.03, 4.23, 4.43], 'three readings all apart: scattered, none the odd one out'],
  ])('passes over %j: %s', (values) => {
    expect(kinds(values).filter((kind) => kind.startsWith('outlier'))).toEqual([]);
  });

  it('never takes one step of a coarse vernier for an outlier', () => {
    for (const resolution of [0.01, 0.02, 0.05, 0.1, 0.5]) {
      const found = remarks([5, 5, 5, 5, 5 + resolution], socket, { ...defaultCallipers, resolution });
      expect(found.filter(({ kind }) => kind === 'outlier')).toEqual([]);
    }
  });

  it('finds one on either side, and two among many', () => {
    expect(outliers([3.9, 4.2, 4.21, 4.2, 4.19, 4.6], 0.02).map(({ index }) => index)).toEqual([0, 5]);
  });

  it('follows the modified z-score where the readings scatter more than the floor', () => {
    // By hand: median 5.1; absolute deviations in order 0, 0.1, 0.1, 0.2, 0.2, 0.3, 3.9, so MAD 0.2.
    const [only, ...others] = outliers([5, 5.1, 4.9, 5.2, 4.8, 5.3, 9], 0.02);
    expect(others).toEqual([]);
    expect(only).toMatchObject({ index: 6, median: 5.1 });
    expect(only!.limit).toBeCloseTo((3.5 * 0.2) / 0.6745, 9);
  });
});

describe('unit slip', () => {
  it('names the reading that is 25.4 times the others, either way', () => {
    expect(kinds([2.23, 2.24, 56.7])).toEqual(['unit-slip 2']);
    expect(kinds([56.7, 2.23, 56.72])).toEqual(['unit-slip 1']);
    const [remark] = remarks([2.23, 2.24, 56.7]);
    expect(remark!.sentence).toContain('millimetres were likely taken for inches (it would be 2.232 mm)');
  });

  it('names the second of two, or the one outside the range', () => {
    expect(kinds([2.23, 56.7])[0]).toBe('unit-slip 1');
    expect(kinds([56.7, 2.23], { ...socket, to: 10 })[0]).toBe('unit-slip 0');
  });

  it('names a reading outside the range that the other unit would bring inside', () => {
    expect(kinds([150.3])).toEqual(['unit-slip 0']);
    expect(remarks([150.3])[0]!.expected).toBe('1 to 100 mm');
  });

  it('does not take a factor of 10 for one', () => {
    expect(kinds([2.23, 2.24, 22.3])).toEqual(['outlier 2']);
  });
});

describe('implausible', () => {
  it('is said of a reading outside the range that no unit explains', () => {
    expect(kinds([4.23], { ...socket, from: 5, to: 6 })).toEqual(['implausible 0']);
  });
});

describe('spread', () => {
  it('is said of two readings far apart, and not of two near', () => {
    expect(kinds([4.21, 4.3])).toEqual(['spread']);
    expect(kinds([4.21, 4.26])).toEqual([]);
  });

  it('is judged without the outlier that explains it', () => {
    expect(kinds([4.23, 4.24, 4.53])).toEqual(['outlier 2']);
  });

  it('has the limit of the chi-square table', () => {
    // Upper 1 % points of chi-square, from memory of any table: 6.635 (1), 9.210 (2), 15.086 (5).
    for (const [n, point] of [
      [2, 6.635],
      [3, 9.21],
      [6, 15.086],
    ] as const) {
      const wide = Array.from({ length: n }, (_, index) => 4 + index);
      expect(excessSpread(wide, 0.02)!.limit).toBeCloseTo(0.02 * Math.sqrt(point / (n - 1)), 5);
    }
    expect(excessSpread([4], 0.02)).toBeUndefined();
  });
});

describe('nominal', () => {
  it.each([
    [1.594, 0.05, ['1/16 in']],
    [3.02, 0.05, ['3 mm']],
    [2.48, 0.05, ['2.5 mm']],
    [28.6, 0.05, ['1 1/8 in']],
    [25.4, 0.05, ['1 in']],
    [19.03, 0.05, ['19 mm', '3/4 in']],
    [4.23, 0.05, []],
    [4.23, 0.3, []],
    [0.01, 0.05, []],
  ])('%d within %d: %j', (value, U, texts) => {
    expect(likelyNominals(value, U).map(({ text }) => text)).toEqual(texts);
  });

  it('puts the sizes of the family first', () => {
    expect(likelyNominals(3.02, 0.05, [3.05, 4]).map(({ text }) => text)).toEqual(['3.05 mm', '3 mm']);
    expect(likelyNominals(3.02, 0.05, [3]).map(({ text }) => text)).toEqual(['3 mm']);
  });

  it('becomes a remark, and the value stays as read', () => {
    const dimension = dimensionOf(socket, [3.02], defaultCallipers);
    expect(dimension.value).toBe(3.02);
    expect(dimension.remarks).toMatchObject([{ kind: 'nominal', expected: '3 mm' }]);
  });
});
