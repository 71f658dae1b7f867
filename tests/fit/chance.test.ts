import { describe, expect, test } from 'vitest';
import { fitChance } from '../../src/fit/chance.ts';
import type { FitLine, FitProblem } from '../../src/fit/types.ts';
import type { Contributor } from '../../src/measure/types.ts';
import { dice, plainDraws } from './plainDraws.ts';

const cause = (
  id: string,
  u: number,
  distribution: Contributor['distribution'] = 'normal',
  dof = Infinity,
) => ({
  id,
  label: id,
  u,
  distribution,
  dof,
});
const line = (id: string, rest: Partial<FitLine>): FitLine => ({
  id,
  mean: 0,
  window: { lo: -0.1, hi: 0.1 },
  sensitivity: {},
  spread: 0.05,
  ...rest,
});

/** One hundredth of a percentage point, five times: what the tables of the code allow. */
const TABLE = 1e-4;

describe('closed forms', () => {
  // Normal law within 1, 2, 3 standard deviations: from memory of any table of the normal distribution.
  test.each([
    [1, 0.682689492],
    [2, 0.954499736],
    [3, 0.997300204],
  ])('one normal line within %d standard deviations', (k, expected) => {
    const chance = fitChance({
      lines: [line('a', { spread: 0.03, window: { lo: -0.05 * k, hi: 0.05 * k }, sensitivity: { x: 2 } })],
      contributors: [cause('x', 0.02)],
    });
    expect(Math.abs(chance.part - expected)).toBeLessThan(TABLE);
    expect(chance.part).toBe(chance.lines.a);
  });

  // Student's t with 5 degrees of freedom lies within 2.015 and within 2.571 in 90 and 95 % (JCGM 100:2008, table G.2); its
  // standard deviation is sqrt(5 / 3).
  test.each([
    [2.015, 0.9],
    [2.571, 0.95],
  ])('a spread of 5 degrees of freedom within %d of its scale', (t, expected) => {
    const half = (0.05 * t) / Math.sqrt(5 / 3);
    const chance = fitChance({
      lines: [line('a', { spread: 0.05, spreadDof: 5, window: { lo: -half, hi: half } })],
      contributors: [],
    });
    expect(Math.abs(chance.part - expected)).toBeLessThan(2e-4);
  });

  test('lines that share nothing multiply', () => {
    const { part, lines } = fitChance({
      lines: [
        line('a', { sensitivity: { x: 1 } }),
        line('b', { mean: 0.05, sensitivity: { y: 1 } }),
        line('c', { mean: 0.08 }),
      ],
      contributors: [cause('x', 0.05, 'rectangular'), cause('y', 0.03)],
    });
    expect(part).toBeCloseTo(lines.a! * lines.b! * lines.c!, 12);
  });

  test('two lines that hang on one cause alone hold or miss together', () => {
    const lines = ['a', 'b'].map((id) => line(id, { spread: 1e-7, sensitivity: { x: 1 } }));
    const chance = fitChance({ lines, contributors: [cause('x', 0.1)] });
    expect(Math.abs(chance.part - 0.682689492)).toBeLessThan(1e-3);
    expect(Math.abs(chance.lines.a! - 0.682689492)).toBeLessThan(TABLE);
  });

  // P(X > 0, Y > 0) = 1/4 + asin(rho) / (2 pi): Sheppard, Phil. Trans. A 192 (1899) 101, from memory.
  test.each([-0.95, -0.5, -0.1, 0.2, 0.5, 0.8, 0.99])(
    'quadrant of the bivariate normal law, rho %d',
    (rho) => {
      const window = { lo: 0, hi: Infinity };
      const shared = Math.sqrt(Math.abs(rho));
      const spread = Math.sqrt(1 - Math.abs(rho));
      const chance = fitChance({
        lines: [
          line('a', { window, spread, sensitivity: { x: shared } }),
          line('b', { window, spread, sensitivity: { x: Math.sign(rho) * shared } }),
        ],
        contributors: [cause('x', 1)],
      });
      expect(Math.abs(chance.part - (0.25 + Math.asin(rho) / (2 * Math.PI)))).toBeLessThan(1e-3);
    },
  );

  // Three equally correlated normal errors: P(all > 0) = 1/8 + 3 asin(rho) / (4 pi), from the same.
  test('octant of three lines, rho 1/2, is a quarter', () => {
    const lines = ['a', 'b', 'c'].map((id) =>
      line(id, { window: { lo: 0, hi: Infinity }, spread: Math.SQRT1_2, sensitivity: { x: Math.SQRT1_2 } }),
    );
    expect(Math.abs(fitChance({ lines, contributors: [cause('x', 1)] }).part - 0.25)).toBeLessThan(1e-3);
  });

  test('one rectangular cause: the part of its range inside the window', () => {
    const half = 0.2;
    const chance = fitChance({
      lines: [line('a', { spread: 1e-6, sensitivity: { x: 1 } })],
      contributors: [cause('x', half / Math.sqrt(3), 'rectangular')],
    });
    expect(Math.abs(chance.part - 0.5)).toBeLessThan(TABLE);
  });

  test('sum of two equal rectangular causes is triangular', () => {
    // Triangle from -0.4 to 0.4: P(|c| < 0.1) = 1 - (0.3 / 0.4)^2.
    const contributors = ['x', 'y'].map((id) => cause(id, 0.2 / Math.sqrt(3), 'rectangular'));
    const chance = fitChance({
      lines: [line('a', { spread: 1e-6, sensitivity: { x: 1, y: 1 } })],
      contributors,
    });
    expect(Math.abs(chance.part - (1 - (0.3 / 0.4) ** 2))).toBeLessThan(2e-4);
  });

  // JCGM 100:2008, Table G.2, 95 %: u times t, not a t squeezed to standard deviation u.
  test.each([
    [1, 12.706],
    [2, 4.303],
    [4, 2.776],
    [9, 2.262],
    [16, 2.12],
  ])('a Student cause of %d degrees of freedom is u times t', (dof, t) => {
    const chance = fitChance({
      lines: [line('a', { spread: 1e-6, window: { lo: -0.02 * t, hi: 0.02 * t }, sensitivity: { x: 2 } })],
      contributors: [cause('x', 0.01, 'student', dof)],
    });
    expect(Math.abs(chance.part - 0.95)).toBeLessThan(3e-4);
  });
});

/** Problems of every kind that a fit may be, from a seed. */
function problemOf(seed: number): { kind: string; problem: FitProblem } {
  const die = dice(seed);
  for (let i = 0; i < 20; i++) die.from(0, 1);
  const kind = ['printer', 'correlated', 'one rectangular', 'tiny spread', 'one-sided', 'tail'][seed % 6]!;
  const count = Math.floor(die.from(2, 7));
  const contributors: Contributor[] = [];
  const causes = kind === 'tiny spread' ? 4 : Math.floor(die.from(3, 10));
  for (let k = 0; k < causes; k++) {
    const distribution = die.pick(['normal', 'rectangular', 'student'] as const);
    const dof = distribution === 'student' ? die.pick([2, 5, 10, 12]) : Infinity;
    contributors.push(cause(`c${k}`, die.from(0.003, 0.03), distribution, dof));
  }
  if (kind === 'one rectangular') contributors.push(cause('dominant', 0.08, 'rectangular'));
  if (kind === 'correlated') contributors.push(cause('dominant', 0.1));
  const lines = Array.from({ length: count }, (_, j): FitLine => {
    const lo = die.from(-0.2, 0.2);
    const width = die.from(0.12, 0.35);
    const sensitivity: Record<string, number> = {};
    for (const { id } of contributors)
      if (id === 'dominant') sensitivity[id] = die.pick([-1, 1, 1]);
      else if (die.from(0, 1) < 0.6) sensitivity[id] = die.from(-1.5, 1.5);
    return {
      id: `l${j}`,
      mean: lo + width * (kind === 'tail' ? die.from(-0.2, 0.1) : die.from(0.3, 0.7)),
      window: { lo, hi: kind === 'one-sided' && die.from(0, 1) < 0.7 ? Infinity : lo + width },
      sensitivity,
      spread: kind === 'tiny spread' ? 1e-5 : 0.0275,
      // A printer known by few prints in every other problem.
      ...(seed % 2 === 1 && { spreadDof: die.pick([5, 9, 20]) }),
    };
  });
  return { kind, problem: { lines, contributors } };
}

describe('plain Monte Carlo, 200k draws, agrees to half a percentage point', () => {
  const seen = new Map<string, number[]>();
  for (let seed = 1; seed <= 36; seed++) {
    const { kind, problem } = problemOf(seed);
    test(`problem ${seed}: ${kind}, ${problem.lines.length} lines`, () => {
      const chance = fitChance(problem);
      const drawn = plainDraws(problem, 200_000, 7919 * seed);
      seen.set(kind, [...(seen.get(kind) ?? []), drawn.part]);
      expect(Math.abs(chance.part - drawn.part)).toBeLessThan(0.005);
      for (const { id } of problem.lines)
        expect(Math.abs(chance.lines[id]! - drawn.lines[id]!)).toBeLessThan(0.005);
    });
  }
  test('and the problems were worth asking: every kind, chances from slim to near certain', () => {
    expect(seen.size).toBe(6);
    const all = [...seen.values()].flat();
    expect(Math.min(...all)).toBeLessThan(0.05);
    expect(Math.max(...all)).toBeGreaterThan(0.9);
    expect(all.filter((part) => part > 0.1 && part < 0.9).length).toBeGreaterThan(15);
  });
});

describe('shares', () => {
  const problem: FitProblem = {
    lines: [
      line('tight', { window: { lo: -0.05, hi: 0.05 }, spread: 0.02, sensitivity: { x: 3, y: 1 } }),
      line('loose', { window: { lo: -1, hi: 1 }, spread: 0.02, sensitivity: { y: 1, z: 10 } }),
    ],
    contributors: [cause('x', 0.02), cause('y', 0.04, 'student', 5), cause('z', 0.01), cause('idle', 1)],
  };
  const chance = fitChance(problem);

  test('are variance shares with u as the GUM has it, largest first, summing to 1', () => {
    // 0.06^2 + 0.04^2 + 0.02^2 = 0.0056
    expect(chance.shares.tight!.map(({ id }) => id)).toEqual(['x', 'y', 'printer:repeatability']);
    expect(chance.shares.tight![0]!.share).toBeCloseTo(36 / 56, 12);
    expect(chance.shares.tight!.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  test('of the part blame what disturbs the line that is likely to miss', () => {
    expect(chance.partShares[0]!.id).toBe('x');
    expect(chance.partShares.find(({ id }) => id === 'z')!.share).toBeLessThan(1e-3);
    expect(chance.partShares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });
});

test.each([
  [{ lines: [], contributors: [] }, 'no_lines'],
  [{ lines: [line('a', { spread: 0 })], contributors: [] }, 'line_spread_not_positive'],
  [{ lines: [line('a', { spreadDof: 2 })], contributors: [] }, 'line_spread_not_positive'],
  [{ lines: [line('a', { mean: Number.NaN })], contributors: [] }, 'line_mean_not_finite'],
  [{ lines: [line('a', { sensitivity: { x: 1 } })], contributors: [] }, 'contributor_unknown'],
  [{ lines: [line('a', {}), line('a', {})], contributors: [] }, 'line_repeated'],
  [{ lines: [line('a', {})], contributors: [cause('x', -1)] }, 'contributor_out_of_range'],
  [{ lines: [line('a', {})], contributors: [cause('x', 1, 'student', 0)] }, 'contributor_out_of_range'],
  [{ lines: [line('a', {})], contributors: [cause('x', 1), cause('x', 1)] }, 'contributor_repeated'],
  [{ lines: [line('a', { window: { lo: 1, hi: 0 } })], contributors: [] }, 'window_empty'],
  [{ lines: Array.from({ length: 25 }, (_, i) => line(`${i}`, {})), contributors: [] }, 'too_many_lines'],
] as const)('refuses what cannot be reckoned: %#, %s', (problem, code) => {
  expect(() => fitChance(problem)).toThrow(expect.objectContaining({ code }));
});
