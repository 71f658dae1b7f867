import { determinant, inverse, Matrix } from 'ml-matrix';
import { expect, test } from 'vitest';
import { defaultCallipers } from '../../../src/measure/callipers.ts';
import { dimensionOf } from '../../../src/measure/index.ts';
import { believedScatter } from '../../../src/printer/calibration/believedScatter.ts';
import { observationOf, sharedCauses } from '../../../src/printer/calibration/observation.ts';
import { priorOf } from '../../../src/printer/calibration/priorOf.ts';
import { scatterEvidence } from '../../../src/printer/calibration/scatterEvidence.ts';
import { coupon } from '../../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { drawCallipers, take } from '../../simulation/callipers.ts';
import { type Randomness, randomness } from '../../simulation/randomness.ts';
import { drawPrinter, print, type TruePrinter } from '../../simulation/truePrinter.ts';

const prior = priorOf(defaultPrinter);
const { features } = coupon(defaultPrinter);

/** The observations of a coupon printed by `printer`. */
function observationsOf(printer: TruePrinter, random: Randomness) {
  const callipers = drawCallipers(random);
  return features.map((feature) => {
    const size = print(printer, feature.nominal, feature.measurand, random);
    const values = take(feature.times, size, feature.reading.round ?? false, callipers, random);
    const bench = { ...defaultCallipers, permissibleError: 0.03, landWidth: 0.3, landWidthUncertainty: 0.02 };
    return observationOf(feature, dimensionOf(feature.reading, values, bench), defaultPrinter, prior);
  });
}

// The density of the multivariate normal law written out: -(log det V + y' V^-1 y) / 2, with V taken apart as a whole.
test('is the log density of all observations, but for a constant', () => {
  const random = randomness(5);
  const observations = observationsOf(drawPrinter(random), random);
  const causes = sharedCauses(observations);
  const evidence = scatterEvidence(observations, prior);
  const written = (scatter: number): number => {
    const v = Matrix.zeros(observations.length, observations.length);
    for (const [i, a] of observations.entries())
      for (const [j, b] of observations.entries()) {
        const own = i === j ? scatter ** 2 + a.variance : 0;
        const printer = prior.reduce((sum, { u }, k) => sum + a.row[k]! * b.row[k]! * u ** 2, 0);
        const callipers = causes.reduce((sum, { effects }) => sum + effects[i]! * effects[j]!, 0);
        v.set(i, j, own + printer + callipers);
      }
    const y = Matrix.columnVector(observations.map(({ excess }) => excess));
    // In units of 0.01 mm, so that the determinant of thirty small numbers does not vanish.
    const logDeterminant = Math.log(determinant(v.clone().mul(1e4)));
    return -(logDeterminant + y.transpose().mmul(inverse(v)).mmul(y).get(0, 0)) / 2;
  };
  const reference = evidence(0.03) - written(0.03);
  for (const scatter of [0.005, 0.012, 0.02, 0.045, 0.1, 0.3])
    expect(Math.abs(evidence(scatter) - written(scatter) - reference)).toBeLessThan(1e-6);
});

// Over printers drawn from what is believed beforehand, a mean of Bayes is right on the average: the repeatability of
// such printers has the mean variance (b^3 - a^3) / (3 (b - a)).
test('what is believed of it is right on the average', () => {
  const random = randomness(31);
  let [believed, true_] = [0, 0];
  for (let k = 0; k < 300; k++) {
    const printer = drawPrinter(random);
    const evidence = scatterEvidence(observationsOf(printer, random), prior);
    believed += believedScatter(evidence, { value: 0.0275, dof: 20 }).value ** 2;
    true_ += printer.repeatability ** 2;
  }
  // 300 printers leave it a standard error of 3 %.
  expect(believed / true_).toBeGreaterThan(0.92);
  expect(believed / true_).toBeLessThan(1.08);
});
