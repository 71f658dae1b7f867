import type { Family } from '../../../src/family/family.ts';
import { currentTrial, type WhichPrint } from '../../../src/job/inspection/currentTrial.ts';
import { type PrintFacts, printFacts } from '../../../src/job/inspection/printFacts.ts';
import { printForm } from '../../../src/job/inspection/printForm.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { FormPaper, ReadingForm } from '../../../src/output/readingForm/index.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';

/** Which print of the job is meant, and the day it is first spoken of, YYYY-MM-DD. */
export interface PrintAsked extends WhichPrint {
  readonly date: string;
}

/** What to read of a print and what the readings say. Throws `Refused`. */
export function inspected(families: readonly Family[], file: JobFile, asked: PrintAsked): PrintFacts {
  const { job, family } = parseJob(file, families);
  return printFacts(prepare(job, family), asked.date, asked);
}

/** The drawing of a print that is the form for it. Throws `Refused`. */
export function printDrawn(
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  asked: PrintAsked,
  paper: FormPaper,
): ReadingForm {
  const { job, family } = parseJob(file, families);
  const prepared = prepare(job, family);
  const { record } = currentTrial(prepared, asked.date, asked);
  return printForm(kernel, prepared, record, paper);
}
