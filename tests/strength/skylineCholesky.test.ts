import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reverseCuthillMcKee } from '../../src/strength/reverseCuthillMcKee.ts';
import { factorise, skyline, solveFactorised } from '../../src/strength/skylineCholesky.ts';

describe('skyline Cholesky', () => {
  it('solves any diagonally dominant banded system to rounding', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 8 }), fc.double({ min: -1, max: 1, noNaN: true })), {
          minLength: 1,
          maxLength: 40,
        }),
        (rows) => {
          const first = Int32Array.from(rows, ([back], i) => Math.max(0, i - back));
          const matrix = skyline(first);
          const full = rows.map(() => rows.map(() => 0));
          rows.forEach(([, v], i) => {
            for (let j = first[i]!; j <= i; j++) {
              const entry = i === j ? 20 : v / (1 + i - j);
              matrix.values[matrix.at[i]! + j] = entry;
              full[i]![j] = entry;
              full[j]![i] = entry;
            }
          });
          const x = rows.map((_, i) => Math.sin(i + 1));
          const b = Float64Array.from(full, (row) => row.reduce((sum, a, j) => sum + a * x[j]!, 0));
          expect(factorise(matrix)).toBe(true);
          solveFactorised(matrix, b);
          x.forEach((v, i) => {
            expect(b[i]).toBeCloseTo(v, 10);
          });
        },
      ),
      { seed: 5, numRuns: 100 },
    );
  });

  it('refuses a matrix without stiffness in some direction', () => {
    const matrix = skyline(Int32Array.from([0, 0]));
    matrix.values.set([1, 1, 1]);
    expect(factorise(matrix)).toBe(false);
  });
});

describe('reverse Cuthill-McKee', () => {
  it('brings a path that was numbered at random to bandwidth 1', () => {
    const order = [7, 2, 9, 0, 5, 3, 8, 1, 6, 4];
    const next: number[][] = order.map(() => []);
    for (let i = 1; i < order.length; i++) {
      next[order[i]!]!.push(order[i - 1]!);
      next[order[i - 1]!]!.push(order[i]!);
    }
    const start = Int32Array.from([0, ...next.map((_, i) => next.slice(0, i + 1).flat().length)]);
    const rank = reverseCuthillMcKee(start, Int32Array.from(next.flat()));
    expect([...rank].sort((a, b) => a - b)).toEqual(order.map((_, i) => i));
    for (let i = 1; i < order.length; i++) expect(Math.abs(rank[order[i]!]! - rank[order[i - 1]!]!)).toBe(1);
  });
});
