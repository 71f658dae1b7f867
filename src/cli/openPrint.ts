import type { Family } from '../family/family.ts';
import { type CurrentTrial, currentTrial } from '../job/inspection/currentTrial.ts';
import { type Meeting, meetingsOf } from '../job/inspection/meetings.ts';
import type { Prepared } from '../job/prepare.ts';
import { openPrepared } from './openJob.ts';
import { blaming } from './refusedFile.ts';
import { type Looks, looksOf } from './terminal.ts';
import { dayTold } from './today.ts';

/** Which print of a job is meant. */
export interface WhichPrint {
  readonly again?: true;
  readonly last?: true;
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
  which: WhichPrint,
  families: readonly Family[],
): Promise<OpenedPrint> {
  const date = dayTold(which.date);
  const { prepared } = await openPrepared(path, families);
  const current = blaming(path, () => currentTrial(prepared, date, which));
  const meetings = blaming(path, () => meetingsOf(prepared));
  return { prepared, current, meetings };
}

/** Where questions and remarks go: beside the answer where that is JSON. */
export interface Talk {
  readonly output: NodeJS.WriteStream;
  readonly looks: Looks;
  readonly say: (line: string) => void;
}

export function talkBeside(json: boolean | undefined): Talk {
  const output = json ? process.stderr : process.stdout;
  return { output, looks: looksOf(output), say: (line) => void output.write(`${line}\n`) };
}
