import { describe, expect, it } from 'vitest';
import {
  angleTolerance,
  edgeTolerance,
  linearTolerance,
  type ToleranceClass,
  toleranceClasses,
} from '../../src/standards/generalTolerances.ts';

type Row = readonly [ToleranceClass, readonly (number | null)[]];
type Look = (grade: ToleranceClass, size: number) => number;

// ISO 2768-1:1989, tables 1 and 2 read in public copies, table 3 from memory.
const tables: readonly (readonly [
  name: string,
  look: Look,
  from: number,
  ends: readonly number[],
  rows: readonly Row[],
])[] = [
  [
    'lengths',
    linearTolerance,
    0.5,
    [3, 6, 30, 120, 400, 1000, 2000, 4000],
    [
      ['f', [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, null]],
      ['m', [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0]],
      ['c', [0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0]],
      ['v', [null, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0]],
    ],
  ],
  [
    'radii and chamfers',
    edgeTolerance,
    0.5,
    [3, 6, 1000],
    [
      ['f', [0.2, 0.5, 1]],
      ['m', [0.2, 0.5, 1]],
      ['c', [0.4, 1, 2]],
      ['v', [0.4, 1, 2]],
    ],
  ],
  [
    'angles',
    angleTolerance,
    0.01,
    [10, 50, 120, 400, 5000],
    [
      ['f', [1, 30 / 60, 20 / 60, 10 / 60, 5 / 60]],
      ['m', [1, 30 / 60, 20 / 60, 10 / 60, 5 / 60]],
      ['c', [1.5, 1, 30 / 60, 15 / 60, 10 / 60]],
      ['v', [3, 2, 1, 30 / 60, 20 / 60]],
    ],
  ],
];

describe.each(tables)('ISO 2768-1, %s', (_, look, from, ends, rows) => {
  it.each(rows)('class %s in every range, at both of its ends', (grade, row) => {
    expect(row).toHaveLength(ends.length);
    row.forEach((value, place) => {
      const start = place === 0 ? from : ends[place - 1]! + 1e-6;
      for (const size of [start, ends[place]!]) {
        if (value === null)
          expect(() => look(grade, size)).toThrow(expect.objectContaining({ code: 'size_outside_table' }));
        else expect(look(grade, size), `${size}`).toBeCloseTo(value, 12);
      }
    });
  });

  it('a coarser class allows as much or more', () => {
    for (const end of ends.slice(1, -1))
      for (const [k, grade] of toleranceClasses.slice(1).entries())
        expect(look(grade, end)).toBeGreaterThanOrEqual(look(toleranceClasses[k]!, end));
  });
});

describe('ISO 2768-1 has nothing', () => {
  it.each([
    ['below 0.5 mm, where each length is given its own', linearTolerance, 'm', 0.49, 'from 0.5 to 4000 mm'],
    ['above 4000 mm', linearTolerance, 'm', 4000.1, 'from 0.5 to 4000 mm'],
    ['fine above 2000 mm', linearTolerance, 'f', 2000.1, 'from 0.5 to 2000 mm'],
    ['very coarse up to 3 mm', linearTolerance, 'v', 3, 'above 3 to 4000 mm'],
    ['for no radius', edgeTolerance, 'm', 0, 'from 0.5 mm'],
    ['for no leg', angleTolerance, 'm', 0, 'above 0 mm'],
    ['for what is no number', linearTolerance, 'm', Number.NaN, 'from 0.5'],
  ] as const)('%s', (_, look, grade, size, allowed) => {
    expect(() => look(grade, size)).toThrow(allowed);
  });
});
