import { correctedReading } from '../../measure/correctedReading.ts';
import { dimensionOf, resolutionUncertainty } from '../../measure/index.ts';
import { mean, median } from '../../measure/statistics.ts';
import type { Callipers } from '../../measure/types.ts';
import type { Known, PrinterProfile } from '../types.ts';
import { deletedResidual, residualOutside } from './deletedResidual.ts';
import { describedSuspect, offBy, type ReadFeature, type Suspect } from './describedSuspect.ts';
import { widePrior } from './fitPastPrior.ts';
import { handOf } from './handOf.ts';
import { type HoldingFit, holdingFit } from './holdingFit.ts';
import { mistakeIn } from './mistakeIn.ts';
import { type Observation, observationOf } from './observation.ts';
import { oddityLimit } from './oddityLimit.ts';
import type { ParameterFit } from './parameterFit.ts';
import { rivalsOf } from './rivalsOf.ts';
import type { DoubtfulReading } from './types.ts';

/** What a calibration needs beside the readings. */
export interface Bench {
  readonly callipers: Callipers;
  readonly profile: PrinterProfile;
  readonly prior: readonly Known[];
}

/** Distance between readings of one feature that an honest hand does not show, in standard deviations. As modified
 *  z-scores have it: Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993), from memory. */
const APART = 3.5;

/** Residual beyond which an otherwise quiet reading is doubted when two swapped digits would put it right to within
 *  `SWAPPED_TO`, in standard deviations: a slip that explains itself needs less evidence. Our judgement, no source. */
const SWAPPED_FROM = 3;
const SWAPPED_TO = 1.5;

/** Verdict on the readings of a coupon. */
interface JudgedReadings {
  /** Indices of the readings to use, by feature in the order given. */
  readonly kept: readonly (readonly number[])[];
  /** The furthest off first. */
  readonly doubtful: readonly DoubtfulReading[];
  /** The fit to all of them with the prior as it is; only where none is doubtful. */
  readonly fit?: ParameterFit;
}

/** Finds the readings that do not fit, says what may have happened to them, and which readings the fit should use: by
 *  feature, indices of those kept. What is doubtful and not beyond belief is kept. */
export function judgeReadings(features: readonly ReadFeature[], bench: Bench): JudgedReadings {
  const sizes = features.map(({ feature, readings }) =>
    readings.map(({ mm }) => correctedReading(feature.reading, mm, bench.callipers).value),
  );
  const { repeatability, resolution } = bench.callipers;
  const sigma = handOf(sizes, Math.hypot(repeatability, resolutionUncertainty(resolution)));
  const apart = sizes.map((each) => new Set(apartIn(each, sigma)));
  const agreeing = sizes.map((each, entry) => each.flatMap((_, k) => (apart[entry]!.has(k) ? [] : [k])));
  // Of two readings that disagree either may be wrong, so the others judge both.
  const split = sizes.map(
    (each) => each.length === 2 && Math.abs(each[0]! - each[1]!) > APART * Math.SQRT2 * sigma,
  );
  const whole = features.flatMap((_, entry) => (split[entry] ? [] : [entry]));
  const observe = (entry: number, of: readonly number[]) => observationFrom(features[entry]!, of, bench);
  const { fit, aside, usual } = agreed(
    whole.map((entry) => observe(entry, agreeing[entry]!)),
    bench.prior,
  );
  const limit = oddityLimit(fit.scatter.dof, features.length);

  const suspects: Suspect[] = [];
  const within = (entry: number, reading: number): void => {
    const others = sizes[entry]!.filter((_, k) => k !== reading && !apart[entry]!.has(k));
    const expected = mean(others);
    const deviation = sigma * Math.sqrt(1 + 1 / others.length);
    const deleted = (sizes[entry]![reading]! - expected) / deviation;
    suspects.push({ entry, reading, expected, deviation, deleted });
  };
  for (const entry of features.keys()) for (const reading of apart[entry]!) within(entry, reading);
  for (const [entry, isSplit] of split.entries()) {
    if (!isSplit) continue;
    const far = [0, 1].map((k) => Math.abs(against(fit, observe(entry, [k])).deleted));
    within(entry, far[0]! > far[1]! ? 0 : 1);
    if (Math.min(...far) > limit)
      suspects.push({ entry, reading: null, ...against(fit, observe(entry, [0, 1])) });
  }
  for (const place of aside) {
    const entry = whole[place]!;
    const members = agreeing[entry]!;
    const reading = members.length > 1 ? oneToBlame(entry, members) : members[0]!;
    const accused = observe(entry, reading === null ? members : [reading]);
    const rivals = rivalsOf(fit, accused, bench.prior).map((rival) => ({
      ...rival,
      entry: features.findIndex(({ feature }) => feature === rival.observation.feature),
    }));
    const first = rivals[0]?.entry;
    suspects.push({
      entry,
      reading,
      ...against(fit, accused),
      ...(first === undefined ? {} : { rival: first }),
    });
    for (const rival of rivals) {
      const only = agreeing[rival.entry]!.length === 1 ? agreeing[rival.entry]![0]! : null;
      suspects.push({
        entry: rival.entry,
        reading: only,
        ...against(rival.fit, rival.observation),
        rival: entry,
      });
    }
  }
  for (const [place, observation] of fit.observations.entries()) {
    const entry = features.findIndex(({ feature }) => feature === observation.feature);
    const [reading, ...more] = agreeing[entry]!;
    if (more.length > 0 || suspects.some((suspect) => suspect.entry === entry)) continue;
    const { difference, deviation } = deletedResidual(fit, place);
    const suspect = {
      entry,
      reading: reading!,
      expected: observation.dimension.value - difference,
      deviation,
      deleted: difference / deviation,
    };
    if (Math.abs(suspect.deleted) <= SWAPPED_FROM) continue;
    const { feature, readings } = features[entry]!;
    const slip = mistakeIn(readings[reading!]!, (mm) => offBy(suspect, feature, mm, bench.callipers));
    if (slip?.mistake !== 'digits-swapped') continue;
    if (Math.abs(offBy(suspect, feature, slip.likely, bench.callipers)) <= SWAPPED_TO) suspects.push(suspect);
  }

  function oneToBlame(entry: number, members: readonly number[]): number | null {
    const rests = members
      .map((k) => ({
        k,
        off: Math.abs(
          against(
            fit,
            observe(
              entry,
              members.filter((other) => other !== k),
            ),
          ).deleted,
        ),
      }))
      .sort((a, b) => a.off - b.off);
    return rests[0]!.off <= limit / 2 ? rests[0]!.k : null;
  }

  // Of two that accuse each other the one with an explanation goes first.
  const strength = ({ entry, deleted, rival }: Suspect): number =>
    Math.max(
      ...suspects
        .filter((other) => other.entry === rival && other.rival === entry)
        .map((other) => Math.abs(other.deleted)),
      Math.abs(deleted),
    );
  const doubtful = suspects
    .map((suspect) => ({
      strength: strength(suspect),
      ...describedSuspect(suspect, suspects, features, bench.callipers),
    }))
    .sort((a, b) => b.strength - a.strength || Number(a.likely === null) - Number(b.likely === null))
    .map(({ strength: _, ...each }) => each);
  const kept = features.map(({ feature, readings }) => {
    const out = doubtful.filter((each) => each.feature === feature.id && each.leftOut);
    return readings.flatMap((_, k) =>
      out.some(({ reading }) => reading === null || reading === k) ? [] : [k],
    );
  });
  return { kept, doubtful, ...(usual && suspects.length === 0 ? { fit } : {}) };
}

/** The fit that holds. When two or more features that seem wrong agree as soon as the prior hardly counts, the prior is
 *  wrong and not they: such a printer is out of the common. */
function agreed(
  observations: readonly Observation[],
  prior: readonly Known[],
): HoldingFit & { readonly usual: boolean } {
  const usual = holdingFit(observations, prior);
  if (usual.aside.length < 2) return { ...usual, usual: true };
  const odd = holdingFit(observations, widePrior(prior));
  return odd.aside.length <= usual.aside.length - 2 ? { ...odd, usual: false } : { ...usual, usual: true };
}

/** Indices of the readings apart from the middle of three or more, at most the smaller half of them. */
function apartIn(sizes: readonly number[], sigma: number): readonly number[] {
  if (sizes.length < 3) return [];
  const middle = median([...sizes]);
  const limit = APART * sigma * Math.sqrt(1 + 1 / (sizes.length - 1));
  const far = sizes.flatMap((size, k) => (Math.abs(size - middle) > limit ? [k] : []));
  return 2 * far.length < sizes.length ? far : [];
}

/** The observation that some of a feature's readings make. */
export function observationFrom(
  { feature, readings }: ReadFeature,
  of: readonly number[],
  { callipers, profile, prior }: Bench,
): Observation {
  const values = of.map((k) => readings[k]!.mm);
  const spec = { ...feature.reading, id: feature.id };
  return observationOf(feature, dimensionOf(spec, values, callipers), profile, prior);
}

function against(
  fit: ParameterFit,
  observation: Observation,
): Pick<Suspect, 'expected' | 'deviation' | 'deleted'> {
  const { difference, deviation } = residualOutside(fit, observation);
  return { expected: observation.dimension.value - difference, deviation, deleted: difference / deviation };
}
