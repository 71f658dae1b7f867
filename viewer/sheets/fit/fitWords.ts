import { spoken } from '../../../src/job/feltWords.ts';
import type { LadderFacts } from '../../../src/job/fitFacts.ts';
import type { MakeResult } from '../../../src/job/result.ts';
import { day } from '../../../src/output/words/index.ts';

/** What a ladder said, or why it says nothing; no full stop. */
export function ladderWords({ group, date, printer, material, rungs, felt, speaks }: LadderFacts): string {
  const what = `ladder of the ${group}, ${rungs} steps, drawn ${day(date)} for ${printer} in ${material}`;
  if (felt === null) return `${what}: not felt yet`;
  const told = `${what}: ${spoken(felt)}`;
  return speaks ? told : `${told}; it was printed otherwise than this job, so nothing follows from it`;
}

/** Where the machine comes nearest on its way, part as printed. */
export interface NearestPlace {
  readonly number: number;
  readonly title: string;
  /** mm; below 0 the part is in the way. */
  readonly gap: number;
  /** "key up"; empty where nothing moves. */
  readonly pose: string;
  readonly verdict: 'holds' | 'caution' | 'fails';
}

/** How near the machine comes to the print on its way, the nearest first. */
export const nearestPlaces = ({ findings }: Pick<MakeResult, 'findings'>): readonly NearestPlace[] =>
  findings
    .flatMap(({ id, title, value, verdict, details }, k) =>
      /(^|\.)gap\..+\.predicted$/.test(id) && value !== null
        ? [
            {
              number: k + 1,
              title: title.replace(/, part as printed$/, ''),
              gap: value,
              pose: typeof details?.pose === 'string' ? details.pose : '',
              verdict,
            },
          ]
        : [],
    )
    .sort((a, b) => a.gap - b.gap);
