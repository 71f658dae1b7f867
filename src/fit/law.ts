import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Contributor } from '../measure/types.ts';
import { studentTable } from './student.ts';
import type { FitLine } from './types.ts';

/** Distribution of one symmetric error about 0.
 *
 *  A rectangular error of standard uncertainty u reaches u sqrt(3) to either side (JCGM 100:2008, 4.3.7).
 *  A Student error is u times t: the scaled and shifted t of JCGM 101:2008, 6.4.9.2, whose u is the standard
 *  uncertainty the GUM states for a mean of few readings. Its standard deviation is larger, by
 *  sqrt(dof / (dof - 2)): that is the extra doubt of few readings, and is kept, unless the contributor says what the
 *  deviation is. */
export interface Law {
  readonly kind: 'normal' | 'rectangular' | 'student';
  /** Standard uncertainty, mm, above 0. */
  readonly u: number;
  /** Degrees of freedom of a Student law; Infinity for the others. */
  readonly dof: number;
}

/** What a contributor does to a line whose clearance it moves by `sensitivity` for each unit of its error. */
export function lawOf(contributor: Contributor, sensitivity: number): Law {
  const u = Math.abs(sensitivity) * contributor.u;
  const { dof, deviation } = contributor;
  if (contributor.distribution === 'student' && dof !== Infinity)
    return {
      kind: 'student',
      u: deviation === undefined ? u : Math.abs(sensitivity) * narrowed(deviation, dof),
      dof,
    };
  // A Student law of infinite degrees of freedom is the normal law.
  return { kind: contributor.distribution === 'rectangular' ? 'rectangular' : 'normal', u, dof: Infinity };
}

/** What belongs to a line alone. A spread estimated from few prints is itself in doubt: the error is Student's, scaled so
 *  that its standard deviation is the spread (JCGM 101:2008, 6.4.9.4). Requires above 2 degrees of freedom. */
export function ownLaw({ spread, spreadDof = Infinity }: Pick<FitLine, 'spread' | 'spreadDof'>): Law {
  if (spreadDof === Infinity) return { kind: 'normal', u: spread, dof: Infinity };
  return { kind: 'student', u: narrowed(spread, spreadDof), dof: spreadDof };
}

/** The u of a Student law of this standard deviation; requires above 2 degrees of freedom. */
const narrowed = (deviation: number, dof: number): number => deviation * Math.sqrt((dof - 2) / dof);

/** Probability that an error of this law stays below x mm. */
export function cdfOf(law: Law): (x: number) => number {
  const { u } = law;
  if (law.kind === 'normal') {
    const standard = normalCdf.factory(0, 1);
    return (x) => standard(x / u);
  }
  if (law.kind === 'rectangular') {
    const half = u * Math.sqrt(3);
    return (x) => (x <= -half ? 0 : x >= half ? 1 : (x + half) / (2 * half));
  }
  const { cdf } = studentTable(law.dof);
  return (x) => cdf(x / u);
}

/** Excess kurtosis: how far from normal in its flanks; Infinity up to 4 degrees of freedom. */
export function excessKurtosis(law: Law): number {
  if (law.kind === 'normal') return 0;
  if (law.kind === 'rectangular') return -1.2;
  return law.dof > 4 ? 6 / (law.dof - 4) : Infinity;
}

/** True variance, mm^2, which for a Student law is larger than u^2; u^2 itself where it is infinite. */
export function varianceOf(law: Law): number {
  return law.u ** 2 * (law.kind === 'student' && law.dof > 2 ? law.dof / (law.dof - 2) : 1);
}

/** Largest change of a probability that a law may cause by being taken for normal. */
const SHAPE_TOLERANCE = 5e-5;

/** Whether a law that makes up `share` of a variance may be taken for the normal law of the same variance.
 *  First term of Edgeworth's series: the distribution function changes by k4 / 24 He3(z) phi(z), where k4 is the
 *  law's excess kurtosis times share^2 and |He3 phi| stays below 0.56. From memory of Kendall and Stuart,
 *  The Advanced Theory of Statistics, vol. 1, ch. 6. */
export function passesForNormal(law: Law, share: number): boolean {
  return ((0.56 * Math.abs(excessKurtosis(law))) / 24) * share ** 2 < SHAPE_TOLERANCE;
}
