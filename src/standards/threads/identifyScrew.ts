import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Known } from './pitchOver.ts';
import { type TellingTest, tellApart } from './tellApart.ts';
import type { Range, Thread } from './thread.ts';
import { threads } from './threads.ts';

/** What callipers say of a screw, mm. `pitch` absent: not measured. */
export interface ScrewReadings {
  /** Over the crests, at their widest. */
  readonly diameter: Known;
  readonly pitch?: Known;
}

/** One thread held against the readings. */
export interface ScrewMatch {
  readonly thread: Thread;
  /** How likely it is this one, 0..1: all of them and `none` add up to 1. */
  readonly likely: number;
  /** Chance that such a screw reads as far off as this or farther, 0..1; 1 when it could not agree better. */
  readonly agreement: number;
  /** How far the diameter read lies outside what the standard permits, mm: above 0 larger, below 0 smaller, 0 within. */
  readonly diameterOff: number;
  /** Pitch read less pitch of the thread, mm; null when not measured. */
  readonly pitchOff: number | null;
}

export interface ScrewIdentity {
  /** Threads that agree, the likeliest first. May be empty. */
  readonly candidates: readonly ScrewMatch[];
  /** Threads that do not agree, the nearest first. */
  readonly ruledOut: readonly ScrewMatch[];
  /** How likely it is that the screw is none of the known threads, or was misread. */
  readonly none: number;
  /** What tells the likeliest from the next ones. */
  readonly tests: readonly TellingTest[];
}

/** Share of screws made to the usual class of their standard; the others lie anywhere in its classes.
 *  Common practice, no source. */
const USUAL_CLASS = 0.9;

/** Relative error of the pitch of a commercial screw, standard deviation. Common practice, no source. */
const PITCH_OF_SCREWS = 0.002;

/** Share of screws that no table here has, worn or misread ones included, and what such a one may be like: any diameter
 *  of the tables, a pitch from a twentieth to half of it. Common practice, no source. */
const UNKNOWN = { share: 0.05, diameters: { lo: 1.4, hi: 10.5 }, pitches: { lo: 0.05, hi: 0.5 } } as const;

/** Agreement below which a thread is ruled out: one such screw in a thousand reads so. Common practice, no source. */
const RULED_OUT = 0.001;

/** Rivals named in the tests, and how likely one has to be. */
const RIVALS = { most: 3, from: 0.02 } as const;

/** Which threads a screw may have, from its outside diameter and, better, its pitch as well.
 *
 *  A real screw is smaller than its nominal diameter, by how much its standard says: the diameter is uniform over the
 *  range of its class, blurred by the uncertainty of the reading; the pitch is normal. Likelihood times how often the
 *  thread is met, over the sum of all, is how likely it is (Bayes); `agreement` leaves out how often, and tests the
 *  readings alone (chi-square of what is off). Values in mm, `value` and `u` above 0.
 *  Throws a RangeError otherwise.
 *  @example identifyScrew({ diameter: { value: 4.92, u: 0.02 }, pitch: { value: 0.8, u: 0.01 } })
 *  // => { candidates: [M5 ...], ruledOut: [...], none: 0.00..., tests: [...] } */
export function identifyScrew(readings: ScrewReadings): ScrewIdentity {
  const { diameter, pitch } = readings;
  for (const [name, known] of [
    ['diameter', diameter],
    ...(pitch ? [['pitch', pitch] as const] : []),
  ] as const)
    if (!(known.value > 0 && known.u > 0 && Number.isFinite(known.value + known.u)))
      throw new RangeError(
        `${name} of a screw requires value and uncertainty above 0 mm (given ${known.value} and ${known.u})`,
      );

  const met = threads.reduce((sum, thread) => sum + thread.met, 0);
  const held = threads.map((thread) => hold(thread, readings));
  const weights = held.map(
    ({ likelihood, match }) => (likelihood * (1 - UNKNOWN.share) * match.thread.met) / met,
  );
  const unknown = UNKNOWN.share * unknownLikelihood(readings);
  const total = weights.reduce((sum, weight) => sum + weight, unknown);

  const matches = held.map(({ match, square }, k) => ({
    square,
    match: { ...match, likely: weights[k]! / total },
  }));
  const agrees = ({ match }: { match: ScrewMatch }): boolean => match.agreement >= RULED_OUT;
  const candidates = matches
    .filter(agrees)
    .sort((a, b) => b.match.likely - a.match.likely)
    .map(({ match }) => match);
  const ruledOut = matches
    .filter((one) => !agrees(one))
    .sort((a, b) => a.square - b.square)
    .map(({ match }) => match);
  const [best, ...others] = candidates;
  const rivals = others.filter(({ likely }) => likely >= RIVALS.from).slice(0, RIVALS.most);
  return {
    candidates,
    ruledOut,
    none: unknown / total,
    tests: best === undefined ? [] : rivals.flatMap(({ thread }) => tellApart(best.thread, thread)),
  };
}

interface Held {
  readonly match: Omit<ScrewMatch, 'likely'>;
  readonly likelihood: number;
  /** Chi-square of what is off. */
  readonly square: number;
}

function hold(thread: Thread, { diameter, pitch }: ScrewReadings): Held {
  const { usual, any } = thread.outside;
  const diameterOff = beyond(diameter.value, any);
  let likelihood = USUAL_CLASS * blurred(diameter, usual) + (1 - USUAL_CLASS) * blurred(diameter, any);
  let square = (diameterOff / diameter.u) ** 2;
  if (pitch === undefined)
    return {
      match: { thread, agreement: 2 * normalCdf(-Math.sqrt(square), 0, 1), diameterOff, pitchOff: null },
      likelihood,
      square,
    };
  const pitchOff = pitch.value - thread.pitch;
  const spread = Math.hypot(pitch.u, PITCH_OF_SCREWS * thread.pitch);
  const off = (pitchOff / spread) ** 2;
  likelihood *= Math.exp(-off / 2) / (spread * Math.sqrt(2 * Math.PI));
  square += off;
  // The chance that a chi-square of two degrees of freedom is larger.
  return { match: { thread, agreement: Math.exp(-square / 2), diameterOff, pitchOff }, likelihood, square };
}

const beyond = (value: number, { lo, hi }: Range): number =>
  value > hi ? value - hi : value < lo ? value - lo : 0;

/** Density of a reading of something that lies anywhere in a range, 1/mm. */
const blurred = ({ value, u }: Known, { lo, hi }: Range): number =>
  (normalCdf((value - lo) / u, 0, 1) - normalCdf((value - hi) / u, 0, 1)) / (hi - lo);

function unknownLikelihood({ diameter, pitch }: ScrewReadings): number {
  const { diameters, pitches } = UNKNOWN;
  const ofDiameter = 1 / (diameters.hi - diameters.lo);
  return pitch === undefined ? ofDiameter : ofDiameter / ((pitches.hi - pitches.lo) * diameter.value);
}
