import { Matrix, pseudoInverse } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  afterFeelings,
  afterReading,
  type CauseRow,
  columnsOf,
  lengthOf,
  nothingBelieved,
  somewhere,
  type TrialBelief,
  unheard,
  withCauses,
  withoutCauses,
} from '../../src/fit/trialBelief.ts';
import { randomness } from '../simulation/randomness.ts';

const rows: readonly CauseRow[] = [
  { a: -0.04, b: -0.02, spread: 0.025 },
  { a: 0.03, c: 0.05, spread2: 0.025 },
  { b: 0.02, c: -0.01, noise: 0.01 },
];
const ids = ['a', 'b', 'c', 'spread', 'spread2', 'noise'];

describe('lengths that are read', () => {
  it('leave what least squares leaves', () => {
    const values = [0.05, -0.03, 0.02];
    let belief = withCauses(nothingBelieved, ids);
    for (const [k, row] of rows.entries()) belief = afterReading(belief, row, values[k]!);
    // The normal law given H z = v: H+ v and I - H+ H, by the Moore-Penrose inverse, for z of unit variance.
    const h = new Matrix(rows.map((row) => ids.map((id) => row[id] ?? 0)));
    const inverse = pseudoInverse(h);
    const mean = inverse.mmul(Matrix.columnVector(values)).to1DArray();
    const left = Matrix.eye(ids.length).sub(inverse.mmul(h));
    for (const i of ids.keys()) {
      expect(belief.mean[i]).toBeCloseTo(mean[i]!, 9);
      for (const j of ids.keys()) expect(belief.covariance[i]![j]).toBeCloseTo(left.get(i, j), 9);
    }
  });

  it('may be forgotten with their own causes, whatever comes later', () => {
    const [first, second, third] = rows;
    const told = (belief: TrialBelief, row: CauseRow, value: number) =>
      withoutCauses(afterReading(belief, row, value), (id) => id.startsWith('spread'));
    const forgetful = afterReading(told(told(nothingBelieved, first!, 0.05), second!, -0.03), third!, 0.02);
    let whole = nothingBelieved;
    for (const [k, row] of rows.entries()) whole = afterReading(whole, row, [0.05, -0.03, 0.02][k]!);
    for (const row of [{ a: 0.1 }, { b: 0.1, c: -0.2 }, { a: -0.04, b: -0.02 }]) {
      expect(lengthOf(forgetful, row).mean).toBeCloseTo(lengthOf(whole, row).mean, 12);
      expect(lengthOf(forgetful, row).variance).toBeCloseTo(lengthOf(whole, row).variance, 12);
    }
  });

  it('teach nothing of what is held, which goes on blurring them', () => {
    const row = { printer: 0.06, machine: 0.03, spread: 0.02 };
    const held = (id: string) => id === 'printer';
    const belief = afterReading(nothingBelieved, row, 0.05, held);
    expect(lengthOf(belief, { printer: 1 })).toEqual({ mean: 0, variance: 1 });
    const all = 0.06 ** 2 + 0.03 ** 2 + 0.02 ** 2;
    expect(lengthOf(belief, { machine: 0.03 }).mean).toBeCloseTo((0.05 * 0.03 ** 2) / all, 12);
    expect(lengthOf(belief, { machine: 1 }).variance).toBeCloseTo(1 - 0.03 ** 2 / all, 12);
  });
});

describe('what is left, as causes again', () => {
  it('has the covariance of the belief', () => {
    let belief = withCauses(nothingBelieved, ids);
    for (const row of rows) belief = afterReading(belief, { ...row, blur: 0.02 }, 0.03);
    const columns = columnsOf(belief);
    for (const i of belief.ids.keys())
      for (const j of belief.ids.keys()) {
        const sum = columns.reduce((total, column) => total + column[i]! * column[j]!, 0);
        expect(sum).toBeCloseTo(belief.covariance[i]![j]!, 9);
      }
  });
});

/** What is promised of mean and deviation, in deviations: a range of which an end is cut off is far from normal. */
const ACCURACY = 0.12;

/** Brute force: every cause drawn from its own law, every draw weighted by how likely it makes what was seen. */
function weighted(
  ranges: readonly string[],
  seen: readonly { row: CauseRow; value: number; noise: number }[],
  felt: readonly { row: CauseRow; within: readonly [number, number] }[],
  asked: readonly CauseRow[],
) {
  const random = randomness(20261126);
  const all = [...new Set([...[...seen, ...felt].map(({ row }) => row), ...asked].flatMap(Object.keys))];
  const sums = asked.map(() => ({ first: 0, second: 0 }));
  let weight = 0;
  let squares = 0;
  for (let draw = 0; draw < 250_000; draw++) {
    const z = Object.fromEntries(
      all.map((id) => [
        id,
        ranges.includes(id) ? random.uniform(-Math.sqrt(3), Math.sqrt(3)) : random.normal(1),
      ]),
    );
    const length = (row: CauseRow) =>
      Object.entries(row).reduce((sum, [id, by]) => sum + by * (z[id] ?? 0), 0);
    if (!felt.every(({ row, within: [lo, hi] }) => length(row) >= lo && length(row) <= hi)) continue;
    const w = Math.exp(
      seen.reduce((sum, { row, value, noise }) => sum - ((length(row) - value) / noise) ** 2 / 2, 0),
    );
    weight += w;
    squares += w * w;
    for (const [k, row] of asked.entries()) {
      sums[k]!.first += w * length(row);
      sums[k]!.second += w * length(row) ** 2;
    }
  }
  const effective = weight ** 2 / squares;
  return {
    effective,
    lengths: sums.map(({ first, second }) => {
      const mean = first / weight;
      return { mean, u: Math.sqrt(second / weight - mean ** 2) };
    }),
  };
}

describe('lengths that are felt, by weighted plain draws', () => {
  const post = { growth: -0.08, socket: 0.02, spread1: 0.025 };
  const bore = { shrink: -0.07, growth: -0.01, shaft: 0.02, spread2: 0.025 };
  const shifts = [
    { growth: -0.08, socket: 0.02 },
    { shrink: -0.07, growth: -0.01, shaft: 0.02 },
    { growth: 1 },
  ];
  const cases = [
    ['one tight, all normal', [], [], [{ row: post, within: [-Infinity, -0.075] }]],
    ['one tight, growth in a range', ['growth'], [], [{ row: post, within: [-Infinity, -0.075] }]],
    [
      'one read, growth in a range',
      ['growth'],
      [{ row: { growth: -0.08, spread1: 0.025 }, value: -0.11, noise: 0.015 }],
      [],
    ],
    [
      'tight and loose, both in ranges',
      ['growth', 'shrink'],
      [],
      [
        { row: post, within: [-Infinity, -0.075] },
        { row: bore, within: [0.1, Infinity] },
      ],
    ],
    [
      'right and right',
      ['growth', 'shrink'],
      [],
      [
        { row: post, within: [-0.075, 0.075] },
        { row: bore, within: [-0.1, 0.1] },
      ],
    ],
    [
      'read and tight and right',
      ['shrink'],
      [{ row: { growth: -0.08, spread1: 0.025 }, value: -0.03, noise: 0.012 }],
      [
        { row: post, within: [-Infinity, -0.075] },
        { row: bore, within: [-0.1, 0.1] },
      ],
    ],
  ] as const;

  it.each(cases)('%s', (_, ranges, seen, felt) => {
    const all = [...new Set([post, bore].flatMap((row) => Object.keys(row)))];
    let belief = withCauses(nothingBelieved, all);
    for (const [k, { row, value, noise }] of seen.entries())
      belief = afterReading(belief, { ...row, [`noise${k}`]: noise }, value);
    const lengths = [...ranges.map(somewhere), ...felt.map(({ row, within }) => unheard(row, within))];
    const found = afterFeelings(belief, lengths).belief;
    const truth = weighted([...ranges], seen, felt, shifts);
    expect(truth.effective).toBeGreaterThan(1000);
    for (const [k, row] of shifts.entries()) {
      const { mean, variance } = lengthOf(found, row);
      const { mean: expected, u } = truth.lengths[k]!;
      // A length made of causes nobody spoke of keeps its prior, and the draws have their own errors.
      const noise = 4 / Math.sqrt(truth.effective);
      expect(Math.abs(mean - expected) / u).toBeLessThan(ACCURACY + noise);
      expect(Math.abs(Math.sqrt(variance) / u - 1)).toBeLessThan(ACCURACY + noise);
    }
  });
});
