import { canonical, sha256Hex } from './hash.ts';
import type { Job } from './schema.ts';
import { FETTLE_VERSION } from './version.ts';

/** SHA-256 of all that decides what is made of a job, hex: what the job says, the printer profile in it, the version of
 *  Fettle, and the model it refits, given as the hash of its bytes. The order of fields does not count. */
export const jobHash = (job: Job, model?: string): string =>
  sha256Hex(canonical({ job, version: FETTLE_VERSION, ...(model !== undefined && { model }) }));
