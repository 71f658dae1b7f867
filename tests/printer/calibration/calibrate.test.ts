import { describe, expect, it } from 'vitest';
import { dimensionOf } from '../../../src/measure/index.ts';
import { calibrate } from '../../../src/printer/calibration/calibrate.ts';
import { deletedResidual, residualOutside } from '../../../src/printer/calibration/deletedResidual.ts';
import { observationOf } from '../../../src/printer/calibration/observation.ts';
import { fitParameters } from '../../../src/printer/calibration/parameterFit.ts';
import { priorOf } from '../../../src/printer/calibration/priorOf.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { knownOf, withKnown } from '../../../src/printer/parameters.ts';
import { printerProfileSchema } from '../../../src/printer/profile.ts';
import { PARAMETERS, type Parameter } from '../../../src/printer/types.ts';
import {
  callipers,
  couponReadings,
  drawnPrinter,
  draws,
  features,
  items,
  type TruePrinter,
  truthOf,
} from './bench.ts';

const DATE = '2025-11-20';
const calibrated = (readings: Record<string, readonly number[]>) =>
  calibrate(defaultPrinter, features, readings, callipers, DATE);

const sample = (seed: number) => {
  const from = draws(seed);
  const truth = drawnPrinter(from);
  return { truth, readings: couponReadings(truth, from) };
};

describe('random printers, each with one coupon read once', () => {
  const COUPONS = 400;
  const runs = Array.from({ length: COUPONS }, (_, k) => {
    const { truth, readings } = sample(k + 1);
    return { truth: truthOf(truth), scatter: truth.scatter, report: calibrated(readings) };
  });
  const moments = (values: readonly number[]) => {
    const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
    return { mean, variance: values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1) };
  };
  const scores = (parameter: Parameter, doubt: (u: number, k: number) => number = (u) => u) =>
    runs.map(({ truth, report }, k) => {
      const { value, u } = knownOf(report.profile, parameter);
      return (value - truth[parameter]!) / doubt(u, k);
    });

  // Parameters come from the ranges of the prior, errors from their stated distributions: the errors of the estimates
  // over their stated uncertainties have mean 0 and variance 1. Bounds of four standard errors of 400 draws.
  it.each(PARAMETERS.filter((parameter) => parameter !== 'firstLayerError'))(
    'are known as well as stated: %s',
    (parameter) => {
      const { mean, variance } = moments(scores(parameter));
      expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(COUPONS));
      expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / COUPONS));
    },
  );

  it('are doubted a little more where another day makes a difference: the first layer', () => {
    const { mean, variance } = moments(scores('firstLayerError'));
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(COUPONS));
    expect(variance).toBeLessThan(1.1);
    for (const { report } of runs) expect(report.profile.firstLayerError.u).toBeGreaterThanOrEqual(0.02);
  });

  it('would seem better known than they are without what the callipers share', () => {
    const index = PARAMETERS.indexOf('boreShrink');
    const alone = moments(
      scores('boreShrink', (_, k) =>
        Math.sqrt(runs[k]!.report.profile.calibration!.covariance[index]![index]!),
      ),
    );
    expect(alone.variance).toBeGreaterThan(2);
  });

  it('have their scatter found, by and large', () => {
    const { mean } = moments(
      runs.map(({ scatter, report }) => Math.log(report.repeatability.value / scatter)),
    );
    // Drawn to the prior: high where the true scatter is low, and the other way round.
    expect(Math.abs(mean)).toBeLessThan(0.1);
  });

  it('seldom have an honest reading doubted, and hardly ever left out', () => {
    const doubted = runs.filter(({ report }) => report.doubtful.length > 0).length;
    const leftOut = runs.filter(({ report }) => report.residuals.some((each) => each.leftOut)).length;
    expect(doubted / COUPONS).toBeLessThan(0.06);
    expect(leftOut / COUPONS).toBeLessThan(0.005);
  });

  it('have every parameter determined that the coupon tells about', () => {
    for (const parameter of [
      'scale.x',
      'scale.y',
      'outerGrowth',
      'boreShrink',
      'levelSag',
      'skew',
    ] as const) {
      for (const { report } of runs)
        expect(report.parameters.find((each) => each.parameter === parameter)!.determined).toBe(true);
    }
  });

  it('give numbers and nothing else, in a profile that its schema takes and JSON keeps', () => {
    for (const { report } of runs.slice(0, 50)) {
      expect(JSON.parse(JSON.stringify(report))).toEqual(report);
      expect(printerProfileSchema.safeParse(report.profile).error).toBeUndefined();
    }
  });
});

// The same posterior by the other route of linear Gaussian estimation: conditioning in the space of the observations,
// b = P X' (X P X' + V)^-1 y, with X by differences of the plain forward model and elimination written here.
it('finds what conditioning by hand finds', () => {
  for (const seed of [3, 14, 15]) {
    const { readings } = sample(seed);
    const report = calibrated(readings);
    const s2 = report.repeatability.value ** 2;
    const prior = priorOf(defaultPrinter);
    const names = [
      'x',
      'y',
      'z',
      'growth',
      'shrink',
      'curvature',
      'spread',
      'thicker',
      'sag',
      'skew',
    ] as const;
    const at = Object.fromEntries(names.map((name, k) => [name, prior[k]!.value])) as unknown as TruePrinter;
    const design = items.map(({ printed }) =>
      names.map((name) => printed({ ...at, [name]: at[name] + 1 }) - printed(at)),
    );
    const dimensions = items.map(({ feature }) =>
      dimensionOf({ ...feature.reading, id: feature.id }, readings[feature.id]!, callipers),
    );
    const excess = dimensions.map(({ value }, i) => value - items[i]!.printed(at));
    const spread = design.map((row, i) =>
      design.map((other, j) => {
        const common = row.reduce((sum, a, k) => sum + a * other[k]! * prior[k]!.u ** 2, 0);
        const own = dimensions[i]!.contributors.filter(({ id }) => !id.startsWith('calliper')).reduce(
          (sum, { u }) => sum + u * u,
          s2,
        );
        return common + (i === j ? own : 0);
      }),
    );
    const solved = eliminated(spread, excess);
    for (const [k, { value }] of report.parameters.entries()) {
      const shift = prior[k]!.u ** 2 * design.reduce((sum, row, i) => sum + row[k]! * solved[i]!, 0);
      expect((value - prior[k]!.value - shift) / prior[k]!.u).toBeCloseTo(0, 8);
    }
  }
});

/** Solution of a square system by Gaussian elimination with row exchange. */
function eliminated(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[pivot]![k]!)) pivot = i;
    [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = rows[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= rows[k]![j]! * x[j]!;
    x[k] = sum / rows[k]![k]!;
  }
  return x;
}

describe('what the callipers share', () => {
  const truth = drawnPrinter(draws(21));
  const exact = Object.fromEntries(
    items.map(({ feature, printed }) => {
      const size = printed(truth);
      return [feature.id, [feature.kind === 'bore' ? Math.sqrt(size ** 2 - 0.3 ** 2) : size]];
    }),
  );

  it('shifts the parameters as the same error in every reading does', () => {
    const { profile } = calibrated(exact);
    const before = PARAMETERS.map((parameter) => knownOf(profile, parameter).value);
    expect(profile.calibration!.shared.map(({ id }) => id).sort()).toEqual([
      'calliper:depth',
      'calliper:inside',
      'calliper:landWidth',
      'calliper:scale',
    ]);
    for (const { id, shift } of profile.calibration!.shared) {
      // A thousandth of a standard uncertainty, so that the answer is the slope.
      const small = 1e-3;
      const shifted = Object.fromEntries(
        features.map((feature) => {
          const [reading] = exact[feature.id]!;
          const { contributors, value } = dimensionOf(
            { ...feature.reading, id: feature.id },
            [reading!],
            callipers,
          );
          const u = contributors.find((each) => each.id === id)?.u ?? 0;
          const size = value + small * u;
          return [feature.id, [feature.kind === 'bore' ? Math.sqrt(size ** 2 - 0.3 ** 2) : size]];
        }),
      );
      const after = calibrated(shifted).profile;
      for (const [k, parameter] of PARAMETERS.entries()) {
        const slope = (knownOf(after, parameter).value - before[k]!) / small;
        expect(Math.abs(slope - shift[k]!)).toBeLessThan(2e-3 * Math.max(...shift.map(Math.abs)));
      }
    }
  });

  it('adds up with the covariance to the doubt of each parameter', () => {
    const { profile } = calibrated(exact);
    const { covariance, shared } = profile.calibration!;
    for (const [k, parameter] of PARAMETERS.entries()) {
      const squares = shared.reduce((sum, { shift }) => sum + shift[k]! ** 2, covariance[k]![k]!);
      expect(knownOf(profile, parameter).u).toBeCloseTo(Math.sqrt(squares), 12);
    }
  });

  it('is as much smaller as the callipers are better', () => {
    const good = calibrate(defaultPrinter, features, exact, { ...callipers, permissibleError: 0.001 }, DATE);
    const usual = calibrated(exact);
    const of = (profile: typeof good.profile) =>
      profile.calibration!.shared.find(({ id }) => id === 'calliper:scale')!.shift[3]!;
    // Outer sizes up to 100 mm: 0.02 mm by DIN 862 against 0.001.
    expect(of(usual.profile) / of(good.profile)).toBeCloseTo(20, 0);
  });
});

describe('leaving one out', () => {
  it('by the hat matrix is leaving it out', () => {
    const { readings } = sample(8);
    const prior = priorOf(defaultPrinter);
    const observations = features.map((feature) =>
      observationOf(
        feature,
        dimensionOf({ ...feature.reading, id: feature.id }, readings[feature.id]!, callipers),
        defaultPrinter,
        prior,
      ),
    );
    const fit = fitParameters(observations, prior, { scatter: 0.02 });
    for (const [i, observation] of observations.entries()) {
      const without = fitParameters(
        observations.filter((_, j) => j !== i),
        prior,
        { scatter: 0.02 },
      );
      const really = residualOutside(without, observation);
      const byHat = deletedResidual(fit, i);
      expect(byHat.difference).toBeCloseTo(really.difference, 10);
      // Scatter in the deviation is estimated in one and held in the other; what the parameters add is the same.
      const [, ofParameters] = [0.02 ** 2 + observation.variance, really.deviation ** 2];
      expect(ofParameters).toBeGreaterThan(0.02 ** 2 + observation.variance);
      expect((0.02 ** 2 + observation.variance) / (1 - fit.hat[i]!)).toBeLessThanOrEqual(
        ofParameters * (1 + 1e-9),
      );
    }
  });

  it('is what the report says of each feature, to what the scatter changes', () => {
    const { readings } = sample(9);
    const { residuals } = calibrated(readings);
    for (const { feature, deleted, u } of residuals) {
      const { [feature]: own, ...others } = readings;
      const without = calibrated(others).profile;
      const item = items.find((each) => each.feature.id === feature)!;
      const truth = Object.fromEntries(
        PARAMETERS.map((parameter) => [parameter, knownOf(without, parameter).value]),
      );
      const expected = item.printed({
        x: truth['scale.x']!,
        y: truth['scale.y']!,
        z: truth['scale.z']!,
        growth: truth.outerGrowth!,
        shrink: truth.boreShrink!,
        curvature: truth.boreCurvature!,
        spread: truth.firstLayerSpread!,
        thicker: truth.firstLayerError!,
        sag: truth.levelSag!,
        skew: truth.skew!,
        scatter: 0,
      });
      const { value } = dimensionOf({ ...item.feature.reading, id: feature }, own!, callipers);
      expect(Math.abs(deleted * u - (value - expected))).toBeLessThan(0.003);
    }
  });
});

describe('too few readings', () => {
  it('leave a parameter they do not tell about as it was, and say so', () => {
    const { readings } = sample(4);
    const some = Object.fromEntries(Object.entries(readings).filter(([id]) => /^(bore|slot|post)/.test(id)));
    const { parameters, remarks } = calibrated(some);
    for (const { parameter, value, u, prior, determined } of parameters) {
      if (!['scale.z', 'firstLayerSpread', 'levelSag'].includes(parameter)) continue;
      expect({ value, u, determined }).toEqual({ ...prior, determined: false });
    }
    expect(parameters.filter(({ determined }) => determined).map(({ parameter }) => parameter)).toEqual(
      expect.arrayContaining(['outerGrowth', 'boreShrink']),
    );
    expect(remarks.filter(({ kind }) => kind === 'few')).toEqual([]);
  });

  it('down to a single one give an answer, hardly better than the prior', () => {
    const report = calibrated({ 'post.x.5': [5.21] });
    expect(report.parameters.map(({ determined }) => determined)).toEqual(
      PARAMETERS.map((parameter) => parameter === 'outerGrowth'),
    );
    expect(report.repeatability.dof).toBeLessThan(7);
    expect(report.remarks.map(({ kind }) => kind)).toContain('few');
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });

  it('down to none are refused', () => {
    expect(() => calibrated({})).toThrow('at least 1 reading (given 0)');
    expect(() => calibrated({ 'bore.2': [] })).toThrow('at least 1 reading (given 0)');
  });

  it('of another coupon are refused', () => {
    expect(() => calibrated({ 'bore.99': [3] })).toThrow('given bore.99');
  });
});

describe('the profile', () => {
  const { readings } = sample(30);

  it('keeps everything that no coupon tells about', () => {
    const own = {
      ...defaultPrinter,
      name: 'Bench Ox',
      material: 'PETG',
      layer: 0.2,
      overhang: 47,
      bridge: 13,
    };
    const { profile } = calibrate(own, features, readings, callipers, DATE);
    const { name, material, layer, overhang, bridge, bed } = own;
    expect(profile).toMatchObject({ name, material, layer, overhang, bridge, bed, calibrated: DATE });
    expect(profile.calibration!.callipers).toBe('long pair');
    expect(Object.keys(profile.calibration!.readings)).toEqual(features.map(({ id }) => id));
  });

  it('calibrated again with the same readings comes out the same: no coupon is counted twice', () => {
    const once = calibrated(readings).profile;
    const twice = calibrate(once, features, readings, callipers, DATE).profile;
    expect(twice).toEqual(once);
  });

  it('leaves alone what its owner states without doubt', () => {
    const exact = withKnown(defaultPrinter, {
      skew: { value: 0, u: 0 },
      firstLayerError: { value: 0.01, u: 0 },
    });
    const { profile, parameters } = calibrate(exact, features, readings, callipers, DATE);
    expect(profile.skew).toEqual({ value: 0, u: 0 });
    expect(profile.firstLayerError).toEqual({ value: 0.01, u: 0 });
    expect(parameters.find(({ parameter }) => parameter === 'skew')!.determined).toBe(false);
    expect(printerProfileSchema.safeParse(profile).success).toBe(true);
  });

  it('is the same for the same input', () => {
    expect(calibrated(readings)).toEqual(calibrated(readings));
  });
});

it('stays finite when a feature is read a hundred times, or all read the same', () => {
  const often = { 'bore.5': Array.from({ length: 100 }, () => 4.8), 'post.x.5': [5.2], 'post.y.5': [5.2] };
  const report = calibrated(often);
  for (const { value, u } of report.parameters) expect([value, u].every(Number.isFinite)).toBe(true);
  for (const each of report.residuals)
    expect([each.standardised, each.deleted, each.u].every(Number.isFinite)).toBe(true);
});

describe('a printer out of the common', () => {
  it('is remarked upon, parameter by parameter', () => {
    const from = draws(77);
    const odd: TruePrinter = { ...drawnPrinter(from), growth: 0.3, spread: 0.6, x: 0.97, scatter: 0.02 };
    const { remarks } = calibrated(couponReadings(odd, from));
    const told = remarks.flatMap(({ kind, parameter }) => (kind === 'implausible' ? [parameter] : []));
    expect(told).toEqual(['scale.x', 'outerGrowth', 'firstLayerSpread']);
    // What every long reading says is no mistyped reading, and the prior does not hold it back.
    const { profile, doubtful } = calibrated(couponReadings({ ...odd, x: 0.95 }, draws(79)));
    expect(doubtful).toEqual([]);
    expect(Math.abs(profile.scale.x.value - 0.95)).toBeLessThan(3 * profile.scale.x.u);
  });

  it('is not, when it is as printers are', () => {
    const from = draws(78);
    const usual = {
      ...drawnPrinter(from),
      growth: 0.05,
      spread: 0.15,
      shrink: 0.08,
      curvature: 0.1,
      x: 0.998,
      y: 0.998,
    };
    expect(calibrated(couponReadings({ ...usual, scatter: 0.02 }, from)).remarks).toEqual([]);
  });
});
