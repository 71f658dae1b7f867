import { fileBase } from '../../src/job/fileBase.ts';
import { jobText } from '../../src/job/jobText.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { profileText } from '../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

/** A text file to take away. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

/** The job as the file that the command line reads, to the byte what it would write itself; called as the job is. */
export const jobFile = (job: JobFile): TextFile => ({
  name: `${fileBase(job.title ?? '', job.family)}.job.json`,
  text: jobText(job),
});

/** A printer profile as its file. */
export const printerFile = (profile: PrinterProfile): TextFile => ({
  name: `${fileBase(profile.name, 'my')}.printer.json`,
  text: profileText(profile),
});
