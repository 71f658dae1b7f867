import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../src/printer/calibration/leastSquares.ts';

// NIST/ITL Statistical Reference Datasets, linear least squares: https://www.itl.nist.gov/div898/strd/lls/lls.shtml
// Data and certified values of Norris, Pontius and Longley as found in public test files that copy them; those of
// Norris were recomputed in exact rational arithmetic and agree.

const numbers = (text: string) => text.trim().split(/\s+/).map(Number);

/** Digits to which two numbers agree: -log10 of their relative difference. */
const digits = (found: number, certified: number): number =>
  found === certified ? 16 : -Math.log10(Math.abs(found / certified - 1));

const norris = {
  y: numbers(`0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8
    557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2`),
  x: numbers(`0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6
    556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5`),
};

const pontius = {
  y: numbers(`.11019 .21956 .32949 .43899 .54803 .65694 .76562 .87487 .98292 1.09146 1.20001 1.30822 1.41599 1.52399
    1.63194 1.73947 1.84646 1.95392 2.06128 2.16844 .11052 .22018 .32939 .43886 .54798 .65739 .76596 .87474 .98300
    1.09150 1.20004 1.30818 1.41613 1.52408 1.63159 1.73965 1.84696 1.95445 2.06177 2.16829`),
  x: Array.from({ length: 40 }, (_, k) => 150_000 * ((k % 20) + 1)),
};

// J. W. Longley, Journal of the American Statistical Association 62 (1967), 819-841: y, then x1 to x6.
const longley = [
  [60323, 83.0, 234289, 2356, 1590, 107608, 1947],
  [61122, 88.5, 259426, 2325, 1456, 108632, 1948],
  [60171, 88.2, 258054, 3682, 1616, 109773, 1949],
  [61187, 89.5, 284599, 3351, 1650, 110929, 1950],
  [63221, 96.2, 328975, 2099, 3099, 112075, 1951],
  [63639, 98.1, 346999, 1932, 3594, 113270, 1952],
  [64989, 99.0, 365385, 1870, 3547, 115094, 1953],
  [63761, 100.0, 363112, 3578, 3350, 116219, 1954],
  [66019, 101.2, 397469, 2904, 3048, 117388, 1955],
  [67857, 104.6, 419180, 2822, 2857, 118734, 1956],
  [68169, 108.4, 442769, 2936, 2798, 120445, 1957],
  [66513, 110.8, 444546, 4681, 2637, 121950, 1958],
  [68655, 112.6, 482704, 3813, 2552, 123366, 1959],
  [69564, 114.2, 502601, 3931, 2514, 125368, 1960],
  [69331, 115.7, 518173, 4806, 2572, 127852, 1961],
  [70551, 116.9, 554894, 4007, 2827, 130081, 1962],
] as const;

describe('coefficients, their deviations and the residual deviation against NIST certified values, to 9 digits', () => {
  it.each([
    {
      name: 'Norris, a straight line',
      design: norris.x.map((x) => [1, x]),
      y: norris.y,
      coefficients: [-0.262323073774029, 1.00211681802045],
      deviations: [0.232818234301152, 0.429796848199937e-3],
      residual: 0.884796396144373,
      dof: 34,
    },
    {
      name: 'Pontius, a parabola with x up to 3e6',
      design: pontius.x.map((x) => [1, x, x * x]),
      y: pontius.y,
      coefficients: [0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14],
      deviations: [0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16],
      residual: 0.205177424076185e-3,
      dof: 37,
    },
    {
      name: 'Longley, six columns nearly dependent',
      design: longley.map(([, ...x]) => [1, ...x]),
      y: longley.map(([y]) => y),
      coefficients: [
        -3482258.63459582, 15.0618722713733, -0.35819179292591e-1, -2.02022980381683, -1.03322686717359,
        -0.511041056535807e-1, 1829.15146461355,
      ],
      deviations: [
        890420.383607373, 84.9149257747669, 0.334910077722432e-1, 0.488399681651699, 0.214274163161675,
        0.22607320006937, 455.478499142212,
      ],
      residual: 304.854073561965,
      dof: 9,
    },
  ])('$name', ({ design, y, coefficients, deviations, residual, dof }) => {
    const fit = leastSquares(design, y);
    for (const [k, certified] of coefficients.entries())
      expect(digits(fit.coefficients[k]!, certified)).toBeGreaterThan(9);
    for (const [k, certified] of deviations.entries())
      expect(digits(fit.deviations[k]!, certified)).toBeGreaterThan(9);
    expect(digits(fit.residualDeviation, residual)).toBeGreaterThan(9);
    expect(fit.dof).toBe(dof);
    // The trace of a projection is its rank.
    expect(fit.hat.reduce((sum, h) => sum + h, 0)).toBeCloseTo(coefficients.length, 9);
  });
});

describe('weights', () => {
  const design = norris.x.map((x) => [1, x]);

  it('of two and more are the same observation several times', () => {
    const weights = norris.y.map((_, k) => 1 + (k % 3));
    const repeated = norris.y.flatMap((y, k) =>
      Array.from({ length: weights[k]! }, () => [y, design[k]!] as const),
    );
    const once = leastSquares(design, norris.y, weights);
    const often = leastSquares(
      repeated.map(([, row]) => row),
      repeated.map(([y]) => y),
    );
    for (const k of [0, 1]) {
      expect(once.coefficients[k]).toBeCloseTo(often.coefficients[k]!, 10);
      expect(once.cofactor[k]![k]).toBeCloseTo(often.cofactor[k]![k]!, 12);
    }
  });

  it('of 0 are no observation', () => {
    const fit = leastSquares(design, [9999, ...norris.y.slice(1)], [0, ...norris.y.slice(1).map(() => 1)]);
    const without = leastSquares(design.slice(1), norris.y.slice(1));
    for (const k of [0, 1]) expect(fit.coefficients[k]).toBeCloseTo(without.coefficients[k]!, 10);
  });
});

describe('refuses', () => {
  it.each<[string, number[][], number[], number[] | undefined, string]>([
    ['rows of unlike length', [[1, 2], [1]], [1, 2], undefined, 'rows of one length'],
    ['a row too few', [[1]], [1, 2], undefined, 'as many rows'],
    ['fewer observations than coefficients', [[1, 2]], [1], undefined, 'as many observations'],
    ['what is not finite', [[1], [Number.NaN]], [1, 2], undefined, 'finite'],
    ['a weight below 0', [[1], [1]], [1, 2], [1, -1], 'weights of 0 or above (given -1)'],
    [
      'a column twice',
      [
        [1, 1],
        [2, 2],
        [3, 3],
      ],
      [1, 2, 3],
      undefined,
      'depend on one another',
    ],
    [
      'a column of noughts',
      [
        [1, 0],
        [2, 0],
        [3, 0],
      ],
      [1, 2, 3],
      undefined,
      'depend on one another',
    ],
  ])('%s', (_, design, y, weights, said) => {
    expect(() => leastSquares(design, y, weights)).toThrow(said);
  });
});
