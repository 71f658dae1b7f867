import { advise, type NextStep } from '../fit/advice.ts';
import type { FitChance, FitProblem } from '../fit/types.ts';
import { withMoreReadings } from '../measure/index.ts';
import { calibratedLike } from '../printer/calibratedLike.ts';
import type { Remembered } from '../remembered/remembered.ts';
import { type MemberJob, together } from './members.ts';
import { type Change, fitWith, type Plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import type { ReportedAdvice } from './result.ts';
import { withoutWords } from './withoutWords.ts';

/** What a few readings and a coupon cost, minutes at the bench; common practice, no source. */
const MINUTES = { threeReadings: 2, coupon: 45 } as const;

/** Readings worth taking again are those with at least this share of the doubt; the others cannot change the answer. */
const WORTH_READING = 0.02;

/** The cheapest step that would make the fit clearly likelier, or null when nothing at the bench would. */
export function nextStep(
  prepared: Prepared,
  parts: readonly PlannedPart[],
  chance: FitChance,
  known: Remembered,
): ReportedAdvice | null {
  const from = {
    whole: withoutWords(prepared),
    parts: parts.map(({ member, prepared: own, planned }) => ({ member, own: withoutWords(own), planned })),
    chance,
  };
  return known.of('next step', from, () => weighed(prepared, parts, chance));
}

type PlannedPart = MemberJob & { readonly planned: Plan };

function weighed(
  prepared: Prepared,
  parts: readonly PlannedPart[],
  chance: FitChance,
): ReportedAdvice | null {
  if (Number.isNaN(chance.part)) return null;
  const changed = (change: Change): FitProblem =>
    together(
      parts.map((one) => ({ member: one.member, problem: fitWith(one.prepared, one.planned, change) })),
    );
  const steps: NextStep[] = [];
  for (const { id, share } of chance.partShares) {
    const reading = /^reading:(.+)$/.exec(id)?.[1];
    const dimension = reading === undefined ? undefined : prepared.dimensions[reading];
    if (!dimension || share < WORTH_READING) continue;
    steps.push({
      id,
      sentence: `three more readings of the ${dimension.name}`,
      minutes: MINUTES.threeReadings,
      changed: changed({
        dimensions: { ...prepared.dimensions, [dimension.id]: withMoreReadings(dimension, 3) },
      }),
    });
  }
  if (prepared.printer.calibrated === null) {
    steps.push({
      id: 'coupon',
      sentence: 'print and measure the coupon, so that the printer is known',
      minutes: MINUTES.coupon,
      changed: changed({ printer: calibratedLike(prepared.printer) }),
    });
  }
  const { best, from, to } = advise(chance.part, steps);
  return best && { id: best.id, sentence: best.sentence, minutes: best.minutes, from, to };
}
