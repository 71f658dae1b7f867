import type { Contributor } from '../measure/types.ts';

/** Diametral clearance that feels right, mm, both ends included. Negative is interference.
 *  One end may be infinite: a one-sided window, `hi: Infinity` for "at least `lo`". */
export interface Window {
  readonly lo: number;
  readonly hi: number;
  /** Clearance to aim for when it is not the middle, mm, inside the window. */
  readonly aim?: number;
}

export type FitClass = 'press' | 'snug' | 'sliding' | 'free';

/** One meeting of part and machine, as a linear sum of independent causes.
 *  clearance = mean + sum(sensitivity[id] * error[id]) + spread * standard normal of its own. */
export interface FitLine {
  readonly id: string;
  /** Expected clearance of the print on the machine, mm. */
  readonly mean: number;
  readonly window: Window;
  /** Change of clearance per unit of each contributor's error; contributors not named have 0. */
  readonly sensitivity: Readonly<Record<string, number>>;
  /** Standard deviation that belongs to this line alone (repeatability of the printer), mm, above 0. */
  readonly spread: number;
  /** How well that is known, degrees of freedom; absent: exactly. What is known by few prints has a higher peak and longer
   *  flanks than a normal error of the same standard deviation. */
  readonly spreadDof?: number | undefined;
}

/** Share of the variance of a clearance, 0..1. */
export interface Share {
  readonly id: string;
  readonly label: string;
  readonly share: number;
}

export interface FitChance {
  /** Chance of each line alone, 0..1, by line id. */
  readonly lines: Readonly<Record<string, number>>;
  /** Chance that all lines hold together, with their shared contributors, 0..1. */
  readonly part: number;
  /** Shares by line id, largest first, summing to 1. */
  readonly shares: Readonly<Record<string, readonly Share[]>>;
  /** Shares of the doubt of the part as a whole, largest first, summing to 1. */
  readonly partShares: readonly Share[];
}

export interface FitProblem {
  readonly lines: readonly FitLine[];
  readonly contributors: readonly Contributor[];
}
