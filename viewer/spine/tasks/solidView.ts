import type { Family } from '../../../src/family/family.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { type PartInTheRound, solidView } from '../../../src/job/solidView.ts';
import type { Remembered } from '../../../src/remembered/remembered.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import { orRefused } from './refusals.ts';

/** What the picture in the round shows of a job, a part each. */
export const solidViewOf = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  known?: Remembered,
): readonly PartInTheRound[] | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    return solidView(kernel, prepare(job, family), known);
  });
