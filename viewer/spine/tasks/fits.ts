import type { Family } from '../../../src/family/family.ts';
import { type FitFacts, fitFacts } from '../../../src/job/fitFacts.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { RefusedJob } from '../answers.ts';
import { orRefused } from './refusals.ts';

/** What the sheet of fits needs beyond the result. */
export const fitsOf = (families: readonly Family[], file: JobFile): FitFacts | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    return fitFacts(job, family);
  });
