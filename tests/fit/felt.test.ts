import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { feltClearance, feltObservation, feltShift } from '../../src/fit/felt.ts';
import { judgementOf } from '../../src/fit/feltLikelihood.ts';
import { logBetween, logCdf } from '../../src/fit/feltNormal.ts';
import type { FeltRecord, FeltVerdict } from '../../src/fit/feltRecord.ts';

interface Told {
  readonly from: number;
  readonly step: number;
  readonly count: number;
  readonly u: number;
  readonly spread: number;
  readonly window?: readonly [number | null, number | null];
  readonly aim?: number;
  readonly felt?: Partial<FeltVerdict>;
}

/** A ladder of one size: a post drawn 4 mm less its clearance. */
const ladder = ({
  from,
  step,
  count,
  u,
  spread,
  window = [0, 0.15],
  aim = 0.075,
  felt,
}: Told): FeltRecord => ({
  rungs: Array.from({ length: count }, (_, k) => ({
    clearance: { post: from + k * step },
    drawn: { post: 4 - (from + k * step) },
  })),
  doubt: { u, spread },
  window: { post: window },
  aim: { post: aim },
  ...(felt && { felt: { tight: [], right: [], loose: [], ...felt } }),
});
const usual: Told = { from: -0.075, step: 0.05, count: 7, u: 0.06, spread: 0.02 };

/** Normal draws by the polar method of Marsaglia. */
function normals(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () => {
    for (;;) {
      const [x, y] = [2 * uniformFloat64(generator) - 1, 2 * uniformFloat64(generator) - 1];
      const s = x * x + y * y;
      if (s > 0 && s < 1) return x * Math.sqrt((-2 * Math.log(s)) / s);
    }
  };
}

describe('logarithms of the normal law', () => {
  it('agree with the distribution function where it has digits', () => {
    const standard = normalCdf.factory(0, 1);
    for (const x of [-11.9, -8, -3, -1, 0, 2, 6]) {
      expect(logCdf(x)).toBeCloseTo(Math.log(standard(x)), 9);
      expect(logBetween(x, x + 0.7)).toBeCloseTo(Math.log(standard(x + 0.7) - standard(x)), x > 4 ? 4 : 9);
    }
  });

  it('go on smoothly far out: Phi(-20) = 2.7536241186e-89', () => {
    // Abramowitz and Stegun, table 26.2 (from memory of it): -log10 Phi(-20) = 88.56010.
    expect(-logCdf(-20) / Math.LN10).toBeCloseTo(88.5601, 4);
    expect(logCdf(-12 - 1e-9)).toBeCloseTo(logCdf(-12 + 1e-9), 5);
    expect(logBetween(200, 201)).toBeCloseTo(logBetween(-201, -200), 12);
    expect(Number.isFinite(logBetween(200, 201))).toBe(true);
  });
});

describe('the shift after a verdict, by closed form', () => {
  it('is the prior before there is one', () => {
    expect(feltShift(ladder(usual))).toEqual({ shift: 0, u: 0.06, contradictory: false, inOrder: true });
  });

  it('is a prior cut off at both ends when prints repeat perfectly', () => {
    // Rung 2 too tight, rung 3 right: -0.025 + d < 0 and 0.025 + d >= 0. Mean and variance of a truncated normal law
    // (Johnson, Kotz and Balakrishnan, Continuous Univariate Distributions 1, 13.10, from memory).
    const { shift, u } = feltShift(ladder({ ...usual, spread: 1e-4, felt: { tight: [2], right: [3] } }));
    const [a, b] = [-0.025 / 0.06, 0.025 / 0.06];
    const pdf = (x: number) => Math.exp(-(x ** 2) / 2) / Math.sqrt(2 * Math.PI);
    const mass = normalCdf(b, 0, 1) - normalCdf(a, 0, 1);
    const variance = 1 + (a * pdf(a) - b * pdf(b)) / mass - ((pdf(a) - pdf(b)) / mass) ** 2;
    expect(shift).toBeCloseTo((0.06 * (pdf(a) - pdf(b))) / mass, 5);
    expect(u).toBeCloseTo(0.06 * Math.sqrt(variance), 5);
  });

  it('comes down to the interval between two neighbours as the steps become fine', () => {
    // Fifteen rungs 0.01 apart; the ninth is the first that goes in: d from -0.065 to -0.055, evenly but for the prior.
    const { shift, u } = feltShift(
      ladder({
        ...usual,
        from: -0.025,
        step: 0.01,
        count: 15,
        spread: 1e-4,
        felt: { tight: [1, 2, 3, 4, 5, 6, 7, 8], right: [9, 10, 11, 12, 13, 14, 15] },
      }),
    );
    expect(shift).toBeCloseTo(-0.05, 2);
    expect(shift).toBeGreaterThan(-0.055);
    expect(shift).toBeLessThan(-0.045);
    expect(u).toBeCloseTo(0.01 / Math.sqrt(12), 4);
  });

  it('is Bayes for a probit when one rung was too tight', () => {
    // X ~ N(0, u^2), chance Phi((t - X) / s): mean -u^2/w phi(t/w)/Phi(t/w), w^2 = u^2 + s^2; the skew normal law's
    // first moment (Azzalini 1985, from memory).
    const [u, s, t] = [0.06, 0.03, 0.025];
    const w = Math.hypot(u, s);
    const mills = Math.exp(-((t / w) ** 2) / 2) / Math.sqrt(2 * Math.PI) / normalCdf(t / w, 0, 1);
    const mean = (-(u ** 2) / w) * mills;
    const variance = u ** 2 - (u ** 4 / w ** 2) * mills * (t / w + mills);
    const found = feltShift(ladder({ ...usual, u, spread: s, felt: { tight: [2] } }));
    expect(found.shift).toBeCloseTo(mean, 6);
    expect(found.u).toBeCloseTo(Math.sqrt(variance), 6);
  });

  it('is the weighted mean of two normal laws when the best of very many was chosen', () => {
    // Where rungs stand close and reach far to both sides, the chance of choosing one of them goes with the density of
    // its clearance at the aim: a normal reading of the aim by the chosen rung, sigma from judgement and spread.
    const told = { ...usual, from: 0.075 - 7 * 0.0125, step: 0.0125, count: 15, u: 0.02, spread: 0.001 };
    const record = ladder({ ...told, felt: { best: 10 } });
    const sigma = Math.hypot(0.001, judgementOf(record, ['post']));
    expect(sigma).toBeCloseTo(0.025, 4);
    const gain = 0.02 ** 2 / (0.02 ** 2 + sigma ** 2);
    const { shift, u } = feltShift(record);
    expect(shift / (-0.025 * gain)).toBeCloseTo(1, 1);
    expect(u / (0.02 * Math.sqrt(1 - gain))).toBeCloseTo(1, 1);
  });

  it('never leaves more doubt than there was, and mirrors', () => {
    for (const best of [1, 3, 4, 6]) {
      const there = feltShift(ladder({ ...usual, felt: { best } }));
      const back = feltShift(ladder({ ...usual, felt: { best: 8 - best } }));
      expect(there.u).toBeLessThan(0.06);
      expect(there.shift).toBeCloseTo(-back.shift, 9);
    }
  });
});

describe('the shift after a verdict, by plain draws', () => {
  // Rejection: a shift from the prior, every size of every rung with its own error, kept when the verdict comes true.
  const cases: readonly (readonly [string, Told])[] = [
    ['tight and right', { ...usual, felt: { tight: [1, 2, 3], right: [4] } }],
    ['tight, right and loose', { ...usual, felt: { tight: [1, 2], right: [3, 4], loose: [6, 7] } }],
    ['all too tight', { ...usual, felt: { tight: [1, 2, 3, 4] } }],
    ['best of seven', { ...usual, felt: { best: 3 } }],
    ['best at the end', { ...usual, u: 0.08, felt: { best: 6 } }],
    ['one-sided', { ...usual, window: [0.05, null], aim: 0.2, felt: { tight: [1, 2, 3], right: [5] } }],
  ];
  it.each(cases)('%s', (_, told) => {
    const record = ladder(told);
    const { felt, rungs, doubt } = record;
    const [lo, hi] = record.window.post!;
    const blur = Math.hypot(doubt.spread, judgementOf(record, ['post']));
    const normal = normals(20261125);
    const kept: number[] = [];
    for (let draw = 0; draw < 300_000; draw++) {
      const shift = doubt.u * normal();
      const best = felt!.best;
      const printed = rungs.map(
        ({ clearance }) => clearance.post! + shift + (best === undefined ? doubt.spread : blur) * normal(),
      );
      const holds =
        best === undefined
          ? felt!.tight.every((k) => printed[k - 1]! < (lo ?? -Infinity)) &&
            felt!.loose.every((k) => printed[k - 1]! > (hi ?? Infinity)) &&
            felt!.right.every((k) => printed[k - 1]! >= lo! && printed[k - 1]! <= (hi ?? Infinity))
          : printed.every(
              (x) => Math.abs(printed[best - 1]! - record.aim.post!) <= Math.abs(x - record.aim.post!),
            );
      if (holds) kept.push(shift);
    }
    expect(kept.length).toBeGreaterThan(300);
    const mean = kept.reduce((sum, x) => sum + x, 0) / kept.length;
    const u = Math.sqrt(kept.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (kept.length - 1));
    const found = feltShift(record);
    // Four standard errors of the draws.
    expect(Math.abs(found.shift - mean)).toBeLessThan((4 * u) / Math.sqrt(kept.length));
    expect(Math.abs(found.u - u)).toBeLessThan((4 * u) / Math.sqrt(2 * kept.length));
  });

  it('two sizes of one rung, each with its own error', () => {
    const record: FeltRecord = {
      rungs: [0, 1, 2].map((k) => ({
        drawn: { a: 4 - 0.05 * k, b: 3 - 0.05 * k },
        clearance: { a: 0.05 * k, b: 0.02 + 0.05 * k },
      })),
      doubt: { u: 0.05, spread: 0.025 },
      window: { a: [0, 0.15], b: [0, 0.15] },
      aim: { a: 0.075, b: 0.075 },
      felt: { tight: [1], right: [2], loose: [3] },
    };
    const normal = normals(7);
    const kept: number[] = [];
    for (let draw = 0; draw < 600_000; draw++) {
      const shift = 0.05 * normal();
      const all = record.rungs.map(({ clearance }) =>
        [clearance.a!, clearance.b!].map((c) => c + shift + 0.025 * normal()),
      );
      if (
        all[0]!.some((c) => c < 0) &&
        all[1]!.every((c) => c >= 0 && c <= 0.15) &&
        all[2]!.some((c) => c > 0.15)
      )
        kept.push(shift);
    }
    const mean = kept.reduce((sum, x) => sum + x, 0) / kept.length;
    const u = Math.sqrt(kept.reduce((sum, x) => sum + (x - mean) ** 2, 0) / kept.length);
    expect(kept.length).toBeGreaterThan(1000);
    const found = feltShift(record);
    expect(Math.abs(found.shift - mean)).toBeLessThan((4 * u) / Math.sqrt(kept.length));
    expect(Math.abs(found.u - u)).toBeLessThan((4 * u) / Math.sqrt(2 * kept.length));
  });
});

describe('verdicts that cannot be, or hardly', () => {
  it.each([
    ['tight looser than loose', { tight: [5], loose: [3] }, true, false],
    ['one number twice', { tight: [2], right: [2] }, true, false],
    ['right tighter than tight', { tight: [4], right: [3] }, false, false],
    ['in order', { tight: [1, 2], right: [3], loose: [4, 5] }, false, true],
    ['best alone', { best: 2 }, false, true],
  ])('%s', (_, felt, contradictory, inOrder) => {
    expect(feltShift(ladder({ ...usual, felt }))).toMatchObject({ contradictory, inOrder });
  });

  it('of two sizes stay finite where neither is anywhere near (their chance came out 0)', () => {
    const two: FeltRecord = {
      rungs: [1, 2, 3].map((k) => ({
        drawn: { a: 1 + 0.08 * k, b: 2 + 0.08 * k },
        clearance: { a: 0.08 * k, b: 0.3 + 0.08 * k },
      })),
      doubt: { u: 0.01, spread: 0.001 },
      window: { a: [0.1, 0.3], b: [0.64, 0.67] },
      aim: { a: 0.2, b: 0.655 },
    };
    for (const felt of [
      { tight: [], right: [], loose: [1, 2, 3] },
      { tight: [3], right: [2], loose: [1] },
      { tight: [], right: [1, 2, 3], loose: [] },
    ]) {
      const { shift, u } = feltShift({ ...two, felt });
      expect(Number.isFinite(shift)).toBe(true);
      expect(u).toBeGreaterThan(0);
      expect(u).toBeLessThanOrEqual(0.0101);
    }
    // All loose: what the first is short of by the nearer of its two sizes, 0.30 - 0.08.
    const { shift } = feltShift({ ...two, felt: { tight: [], right: [], loose: [1, 2, 3] } });
    expect(Math.abs(shift - 0.22)).toBeLessThan(0.01);
  });

  it('say nothing where nobody could mean them: too tight without a lower limit', () => {
    const felt = { tight: [3] };
    const found = feltShift(ladder({ ...usual, window: [null, 0.15], felt }));
    expect(found).toMatchObject({ shift: 0, u: 0.06, contradictory: true });
  });

  it('stay finite however far out they lie', () => {
    for (const felt of [
      { tight: [1, 2, 3, 4, 5, 6, 7] },
      { loose: [1, 2, 3, 4, 5, 6, 7] },
      { best: 1 },
      { best: 7 },
    ]) {
      const { shift, u } = feltShift(ladder({ ...usual, u: 0.002, spread: 0.001, felt }));
      expect(Number.isFinite(shift)).toBe(true);
      expect(u).toBeGreaterThan(0);
      // A choice among rungs that are all far off may even leave a little more.
      expect(u).toBeLessThanOrEqual(0.00205);
    }
  });

  it('leave an interface that is known exactly where it is', () => {
    expect(feltShift(ladder({ ...usual, u: 0, felt: { best: 1 } }))).toMatchObject({ shift: 0, u: 0 });
  });
});

describe('the clearance by what was felt', () => {
  const record = ladder({ ...usual, felt: { tight: [1, 2, 3], right: [4] } });

  it('lies on the rungs, between and beyond them, moved by the shift', () => {
    const { shift, u } = feltShift(record);
    const felt = feltClearance(record, 'post')!;
    expect(felt.u).toBe(u);
    // Drawn 4 mm less the clearance, whatever rung: a straight line all along.
    for (const drawn of [3.5, 3.8, 3.925, 3.95, 4.01, 4.075, 4.3])
      expect(felt.at(drawn)).toBeCloseTo(4 - drawn + shift, 9);
  });

  it('rests on the verdict of an earlier ladder until there is one', () => {
    const felt = feltClearance({ ...ladder(usual), earlier: true }, 'post')!;
    expect(felt.u).toBe(0.06);
    expect(felt.at(3.9)).toBeCloseTo(0.1, 9);
  });

  it('is not there before a verdict, nor for a size that did not step', () => {
    expect(feltClearance(ladder(usual), 'post')).toBeUndefined();
    expect(feltClearance(record, 'bar')).toBeUndefined();
    const still = {
      ...record,
      rungs: record.rungs.map(({ clearance, drawn }) => ({
        clearance: { ...clearance, length: 0.2 },
        drawn: { ...drawn, length: 4.2 },
      })),
      window: { ...record.window, length: [0, 0.4] as const },
      aim: { ...record.aim, length: 0.2 },
    };
    expect(feltClearance(still, 'length')).toBeUndefined();
    expect(feltShift(still)).toEqual(feltShift(record));
  });
});

describe('the verdict by itself', () => {
  it('added to the prior by precisions gives the posterior', () => {
    const record = ladder({ ...usual, felt: { tight: [1, 2, 3], right: [4] } });
    const [posterior, alone] = [feltShift(record), feltObservation(record)];
    const precision = 1 / 0.06 ** 2 + 1 / alone.variance;
    expect(1 / Math.sqrt(precision)).toBeCloseTo(posterior.u, 12);
    expect(alone.shift / alone.variance / precision).toBeCloseTo(posterior.shift, 12);
  });

  it('says nothing before there is one', () => {
    expect(feltObservation(ladder(usual))).toEqual({ shift: 0, variance: Infinity });
  });
});
