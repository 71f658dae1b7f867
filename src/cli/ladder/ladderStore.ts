import type { JobFile, LadderRecord } from '../../job/schema.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { changedJob } from '../placedFiles.ts';
import type { PlacedFile } from '../writeTogether.ts';

/** The job file with a ladder in it, and with another printer profile where it holds one; the rest as it is in the file,
 *  read afresh. Throws `RefusedFile` when it cannot be read. */
export const jobWith = (
  path: string,
  group: string,
  record: LadderRecord,
  printer?: PrinterProfile,
): Promise<PlacedFile> =>
  changedJob(
    path,
    (job) =>
      ({
        ...job,
        ...(printer && { printer }),
        ladders: { ...job.ladders, [group]: record },
      }) as JobFile,
  );
