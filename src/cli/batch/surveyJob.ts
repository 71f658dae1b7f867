import { createHash } from 'node:crypto';
import type { Family } from '../../family/family.ts';
import { jobHash } from '../../job/jobHash.ts';
import { membersOf } from '../../job/members.ts';
import { prepare } from '../../job/prepare.ts';
import { defaultPrinter } from '../../printer/defaultPrinter.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { donorFile } from '../donor/donorFile.ts';
import { modelBytes } from '../donor/modelBytes.ts';
import { baseName } from '../fileNames.ts';
import { openJobAlone } from '../openJob.ts';
import { blaming } from '../refusedFile.ts';

/** What is known of a job before it is made. */
export interface SurveyedJob {
  /** As given on the command line. */
  readonly path: string;
  /** Name of its files, without extension. */
  readonly base: string;
  /** Ids of its parts; one that is empty where there is one part. */
  readonly parts: readonly string[];
  /** Files it is made from. */
  readonly sources: readonly string[];
  /** The hash its result will have. */
  readonly hash: string;
  readonly quantity: number;
  readonly printer: Pick<PrinterProfile, 'lineWidth' | 'layer'>;
}

/** Reads a job as far as that goes without making anything: takes milliseconds, where making takes a good part of a
 *  second. Throws `RefusedFile`; a job it lets pass may still be refused when it is made. */
export async function surveyJob(path: string, families: readonly Family[]): Promise<SurveyedJob> {
  const { job, family, sources, refits } = await openJobAlone(path, families);
  const told = {
    path,
    base: baseName(path, family.id),
    quantity: job.quantity,
    printer: typeof job.printer === 'object' ? job.printer : defaultPrinter,
  };
  if (!refits) {
    const prepared = blaming(path, () => prepare(job, family));
    const parts = membersOf(prepared).map(({ member: { id } }) => id);
    return { ...told, parts, sources, hash: jobHash(job) };
  }
  const file = donorFile(path, job);
  const model = createHash('sha256')
    .update(await modelBytes(path, file, 'donor.file'))
    .digest('hex');
  return { ...told, parts: [''], sources: [...sources, file], hash: jobHash(job, model) };
}
