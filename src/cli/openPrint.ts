import type { Family } from '../family/family.ts';
import { type CurrentTrial, currentTrial, type WhichPrint } from '../job/inspection/currentTrial.ts';
import { type Meeting, meetingsOf } from '../job/inspection/meetings.ts';
import type { Prepared } from '../job/prepare.ts';
import { openPrepared } from './openJob.ts';
import { blaming } from './refusedFile.ts';
import { dayTold } from './today.ts';

/** What the options of a command say of which print is meant. */
export interface ToldPrint extends WhichPrint {
  /** Day it was printed, as told. */
  readonly date?: string;
}

/** A job with its print that is meant, and where that meets the machine. */
export interface OpenedPrint {
  readonly prepared: Prepared;
  readonly current: CurrentTrial;
  readonly meetings: readonly Meeting[];
}

/** Reads a job and finds the print of it that lies on the bench. Throws `RefusedFile`. */
export async function openPrint(
  path: string,
  told: ToldPrint,
  families: readonly Family[],
): Promise<OpenedPrint> {
  const date = dayTold(told.date);
  const { prepared } = await openPrepared(path, families);
  const current = blaming(path, () => currentTrial(prepared, date, told));
  const meetings = blaming(path, () => meetingsOf(prepared));
  return { prepared, current, meetings };
}
