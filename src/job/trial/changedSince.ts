import { windowOf } from '../../fit/classes.ts';
import { clearanceWindow } from '../../output/words/index.ts';
import { formatNumber } from '../../units/index.ts';
import { senseOf } from '../clearanceCauses.ts';
import { printedAlike } from '../feltLadder.ts';
import { type Meeting, meetingsOf } from '../inspection/meetings.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { whatChanged } from './whatChanged.ts';

/** A size as a print had it and as the next one will, mm. */
export interface NextSize {
  readonly id: string;
  readonly name: string;
  readonly before: number;
  readonly after: number;
  /** Why, where it changes; no full stop. Undefined where it does not, or nobody knows. */
  readonly because: string | undefined;
}

/** Changes smaller than this no print shows, mm. */
export const SHOWS = 0.005;

/** How the sizes drawn have changed since a print of the job was drawn, and why: what trials taught, another fit, another
 *  printer, material or layer, the machine read otherwise. Interfaces the record does not know are left out. Throws
 *  `Refused` as `plan` does. */
export function changedSince(prepared: Prepared, record: TrialRecord): readonly NextSize[] {
  const meetings = meetingsOf(prepared);
  const moved = meetings.some(({ id, one }) => shows(record, id, one.drawn));
  const taught = new Map(moved ? whatChanged(prepared).map(({ id, because }) => [id, because]) : []);
  const { trials = [] } = prepared.job;
  const isFirst = trials[0]?.made === record.made && trials[0].date === record.date;
  return meetings.flatMap((meeting): NextSize[] => {
    const { id, name, one } = meeting;
    const size = sizeIn(record, id);
    if (size === undefined) return [];
    const reasons = shows(record, id, one.drawn)
      ? [
          ...(printedAlike(prepared, record) ? [] : [drawnFor(prepared, record)]),
          ...otherFit(size, meeting),
          // Later prints were drawn with what earlier ones had taught, so their clearance does not tell the machine's size.
          ...(isFirst && size.ladder === undefined ? otherMachine(size, meeting) : []),
          ...(taught.has(id) ? [taught.get(id)!] : []),
        ]
      : [];
    const because = reasons.length > 0 ? reasons.join('; ') : undefined;
    return [{ id, name, before: size.drawn, after: one.drawn, because }];
  });
}

type Size = TrialRecord['sizes'][string];

const sizeIn = ({ sizes }: TrialRecord, id: string): Size | undefined =>
  Object.hasOwn(sizes, id) ? sizes[id] : undefined;

const shows = (record: TrialRecord, id: string, drawn: number): boolean =>
  Math.abs(drawn - (sizeIn(record, id)?.drawn ?? drawn)) >= SHOWS;

const drawnFor = ({ printer, material }: Prepared, record: TrialRecord): string =>
  `that print was drawn for ${record.printer}, ${record.material}, layers of ${record.layer} mm; this one for ${printer.name}, ${material.name}, ${printer.layer} mm`;

function otherFit({ window }: Size, { one }: Meeting): readonly string[] {
  const { lo, hi } = windowOf(one.window);
  const was = [window[0] ?? -Infinity, window[1] ?? Infinity] as const;
  const same = (a: number, b: number) => a === b || Math.abs(a - b) < 1e-6;
  if (same(was[0], lo) && same(was[1], hi)) return [];
  return [`the clearance asked for is ${clearanceWindow([lo, hi])} now, it was ${clearanceWindow(was)}`];
}

function otherMachine({ predicted, clearance }: Size, { one }: Meeting): readonly string[] {
  const was = predicted - senseOf(one.kind) * clearance;
  if (Math.abs(one.host - was) < SHOWS) return [];
  return [`the machine is read as ${formatNumber(one.host)} there now, it was ${formatNumber(was)}`];
}
