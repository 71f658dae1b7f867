import { fitChance } from './chance.ts';
import { FitRefusal } from './fitRefusal.ts';
import type { FitProblem } from './types.ts';

/** Something the person could do next. */
export interface NextStep {
  readonly id: string;
  /** "three more readings of the socket width", no full stop. */
  readonly sentence: string;
  /** What it costs, minutes of the evening, above 0. */
  readonly minutes: number;
  /** The fit as it would stand once that is done. */
  readonly changed: FitProblem;
}

/** A step with what it would bring. */
export interface WeighedStep {
  readonly step: NextStep;
  /** Chance of the part after the step, 0..1. */
  readonly to: number;
  /** `to` less the chance now; may be negative. */
  readonly gain: number;
  /** Whether the gain is worth speaking of. */
  readonly matters: boolean;
}

export interface Advice {
  /** The cheapest step that matters; null when none does. */
  readonly best: NextStep | null;
  /** Chance of the part as things are, and after `best` (the same without one), 0..1. */
  readonly from: number;
  readonly to: number;
  /** Every step: eligible ones by gain per minute, then the others by gain. */
  readonly all: readonly WeighedStep[];
}

/** A gain worth speaking of: 2 percentage points; above 95 % a third of what is missing to certainty. */
const WORTH_SAYING = 0.02;
const NEARLY_SURE = 0.95;
const PART_OF_GAP = 1 / 3;
/** A step must bring this part of what the best step brings: a cheap trifle must not hide the real remedy. */
const PART_OF_LARGEST = 1 / 3;

/** The cheapest next step that matters.
 *
 *  A step matters when it raises the chance of the part by 2 percentage points or, from above 95 %, closes a third of the
 *  gap to certainty. Of those that matter and bring at least a third of the largest gain, the one with the most
 *  gain per minute is best; equals go to the larger gain, then to the earlier in the list.
 *  `from` is the chance of the part as things are, 0..1. The rule is the project's own.
 *  Throws `FitRefusal`: `step_minutes_not_positive`, and as `fitChance`.
 *  @example from 71 %: "three more readings" (4 min) to 83 %, "print the coupon" (90 min) to 88 % // => the readings */
export function advise(from: number, steps: readonly NextStep[]): Advice {
  const weighed = steps.map((step): WeighedStep => {
    if (!(step.minutes > 0 && step.minutes < Infinity))
      throw new FitRefusal(
        'step_minutes_not_positive',
        `step ${step.id}`,
        'a cost above 0 min',
        `${step.minutes} min`,
      );
    const to = fitChance(step.changed).part;
    const gain = to - from;
    const matters =
      gain >= WORTH_SAYING || (from > NEARLY_SURE && gain > 0 && gain >= PART_OF_GAP * (1 - from));
    return { step, to, gain, matters };
  });
  const largest = Math.max(0, ...weighed.map(({ gain }) => gain));
  const eligible = weighed.filter(({ matters, gain }) => matters && gain >= PART_OF_LARGEST * largest);
  const others = weighed.filter((entry) => !eligible.includes(entry));
  const rate = ({ gain, step }: WeighedStep) => gain / step.minutes;
  eligible.sort((a, b) => rate(b) - rate(a) || b.gain - a.gain);
  others.sort((a, b) => b.gain - a.gain);
  const best = eligible[0];
  return { best: best?.step ?? null, from, to: best?.to ?? from, all: [...eligible, ...others] };
}
