import { boxOf } from '../boxOf.ts';
import { surfaceOf } from '../features/surfaceOf.ts';
import type { RoundFeatures } from '../features/types.ts';
import { type DonorMesh, type LengthUnit, millimetresIn } from '../types.ts';
import { isRound, logLikelihood, type System } from './roundness.ts';
import { sizesOf } from './sizesOf.ts';

type Candidate = 'mm' | 'inch' | 'cm' | 'metre';

/** One unit, weighed. */
export interface WeighedUnit {
  readonly unit: LengthUnit;
  /** Longest extent in that unit, mm. */
  readonly longest: number;
  /** Sizes that are round in it, and in which system. */
  readonly round: number;
  readonly system: System;
  /** Sizes looked at. */
  readonly sizes: number;
  /** 0 to 1. */
  readonly probability: number;
}

/** What the numbers of a file are taken for. */
export interface UnitGuess {
  readonly guess: LengthUnit;
  /** Probability of the guess, 0 to 1. */
  readonly confidence: number;
  readonly because: string;
  /** Every unit that was weighed, likeliest first. */
  readonly all: readonly WeighedUnit[];
}

const CANDIDATES: readonly Candidate[] = ['mm', 'inch', 'cm', 'metre'];

/** How many files in the wild are in each unit, and in which system what they show was drawn; common practice, no source. */
const FILES: Readonly<Record<Candidate, number>> = { mm: 0.8, inch: 0.14, cm: 0.01, metre: 0.05 };
const DRAWN: Readonly<Record<Candidate, Readonly<Record<System, number>>>> = {
  mm: { metric: 0.85, inch: 0.15 },
  inch: { metric: 0.1, inch: 0.9 },
  cm: { metric: 0.95, inch: 0.05 },
  metre: { metric: 0.9, inch: 0.1 },
};

/** Longest extent of a part that somebody prints, mm, and the spread of its logarithm; common practice, no source. */
const TYPICAL = { mm: 55, spread: 1.1 } as const;
/** What a file's rounding may take a size off its round value, as a share of the diagonal. */
const OFF = 1e-5;
/** Sizes of one part hang together, so each counts for half of what it would alone, and all of them for no more than so many. */
const WEIGHT = 0.5;
const MOST_WEIGHT = 10;

/** Guesses the unit of a mesh by how plausible a part it makes and by how many of its sizes are round values in it.
 *  Probabilities by Bayes over mm, inch, cm and metre. `features`: of the same mesh. Never certain: whoever knows better says so.
 *  @example guessUnit(plateDrawnInInches, roundFeatures(plateDrawnInInches)).guess // => 'inch' */
export function guessUnit(mesh: DonorMesh, features: RoundFeatures): UnitGuess {
  const surface = surfaceOf(mesh);
  const sizes = sizesOf(surface, features);
  const longest = sizes.length === 0 ? 0 : longestOf(mesh);
  const scored = CANDIDATES.map((unit) => {
    const scale = millimetresIn[unit];
    const off = OFF * surface.diagonal * scale;
    const [a, b] = (['metric', 'inch'] as const).map((system) => ({
      system,
      round: sizes.filter((size) => isRound(size * scale, system, off)).length,
      log:
        Math.log(DRAWN[unit][system]) +
        logLikelihood(
          sizes.map((size) => size * scale),
          system,
          off,
          Math.min(WEIGHT, MOST_WEIGHT / sizes.length),
        ),
    })) as [Scored, Scored];
    const { round, system } = a.log >= b.log ? a : b;
    const log = Math.log(FILES[unit]) + plausibility(longest * scale) + logSum(a.log, b.log);
    return { unit, longest: longest * scale, round, system, sizes: sizes.length, log };
  });
  const whole = scored.map(({ log }) => log).reduce(logSum);
  const all = scored
    .map(({ log, ...rest }): WeighedUnit => ({ ...rest, probability: Math.exp(log - whole) }))
    .sort((a, b) => b.probability - a.probability);
  const [best, second] = all as [WeighedUnit, WeighedUnit];
  return { guess: best.unit, confidence: best.probability, because: reasons(best, second), all };
}

interface Scored {
  readonly system: System;
  readonly round: number;
  readonly log: number;
}

/** Logarithm of how plausible a longest extent is, by the normal law in its logarithm. */
const plausibility = (mm: number): number =>
  -0.5 * (Math.log(Math.max(mm, 1e-9) / TYPICAL.mm) / TYPICAL.spread) ** 2;

const logSum = (a: number, b: number): number => Math.max(a, b) + Math.log1p(Math.exp(-Math.abs(a - b)));

function longestOf({ positions }: DonorMesh): number {
  const { low, high } = boxOf(positions);
  return Math.max(0, ...high.map((x, k) => x - low[k]!));
}

const CALLED: Readonly<Record<System, string>> = {
  metric: 'whole or half millimetres',
  inch: 'sixty-fourths or twentieths of an inch',
};
const PLURAL: Readonly<Record<LengthUnit, string>> = {
  micron: 'microns',
  mm: 'mm',
  cm: 'cm',
  inch: 'inches',
  foot: 'feet',
  metre: 'metres',
};

function reasons(best: WeighedUnit, second: WeighedUnit): string {
  const size = ({ unit, longest, round, system, sizes }: WeighedUnit): string =>
    `in ${PLURAL[unit]} it is ${Number(longest.toPrecision(3))} mm long and ${round} of ${sizes} sizes are ${CALLED[system]}`;
  return `${size(best)}; ${size(second)}`;
}
