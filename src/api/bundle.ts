import { families } from '../../parts/index.ts';
import { bundle } from '../job/bundle.ts';
import { bundledJob } from '../job/bundledJob.ts';
import { licenceOf } from '../job/licence.ts';
import { type Problem, Refused } from '../job/problem.ts';
import { readBundle } from '../job/readBundle.ts';
import type { JobFile } from '../job/schema.ts';
import { type LeftOut, takenOver } from '../job/takenOver.ts';
import type { BundledFile, Manifest } from '../output/bundle/index.ts';
import { profileText } from '../printer/profileText.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { modelIn } from './beside.ts';
import { baseOf, innerOf } from './inner.ts';
import type { Beside, OpenJob } from './openedJob.ts';
import { openJob } from './openJob.ts';
import { throughPipeline } from './throughPipeline.ts';

/** Who passes a job on, and on what terms. */
export interface BundleOptions {
  readonly author?: string;
  /** An SPDX expression such as CC-BY-4.0. */
  readonly licence?: string;
  /** What the names of the files begin with; the title of the job unless told. */
  readonly name?: string;
}

/** Packs everything about a job into one archive with which another person can make the part for another printer. The same job
 *  gives the same bytes. `left`: why a file that could be in it is not. Throws `Refused` as `check` does, and for terms
 *  that are none. */
export async function packBundle(
  job: OpenJob,
  { author, licence, name }: BundleOptions = {},
): Promise<{
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly left: readonly Problem[];
}> {
  const file: JobFile = {
    ...job.file,
    ...(author !== undefined && { author }),
    ...(licence !== undefined && { licence: spelt(licence) }),
  };
  const signed = await openJob(file, job.beside);
  const made = await throughPipeline(signed);
  const { donor } = innerOf(signed).job;
  const packed = bundle({
    ...made,
    ...{ base: baseOf(signed, name), file },
    ...(donor && { donor: modelIn(donor.file, job.beside) }),
  });
  return { name: packed.name, bytes: packed.bytes, left: packed.left };
}

function spelt(licence: string): string {
  const found = licenceOf(licence);
  if ('licence' in found) return found.licence;
  throw new Refused([found]);
}

/** A bundle that was opened. It is somebody else's: nothing in it was run. */
export interface OpenedBundle {
  readonly manifest: Manifest;
  /** The job in it, made one's own where a printer was given; with what it names, for `openJob`. */
  readonly job: JobFile;
  readonly beside: Beside;
  /** What was left out of the job or changed, because it speaks of another printer or machine. */
  readonly without: readonly LeftOut[];
  /** Every file in it. */
  readonly files: readonly BundledFile[];
}

/** Opens a bundle, which anybody may have made: holds it to limits before anything is unpacked, and takes nothing that its list
 *  does not name. `printer` is one's own profile; `fresh` leaves the readings out, for a machine of one's own. Throws
 *  `Refused` with every problem found.
 *  @example const { job, beside } = openBundle(bytes); await make(await openJob(job, beside)) */
export function openBundle(
  bytes: Uint8Array,
  { printer, fresh = false }: { readonly printer?: PrinterProfile; readonly fresh?: boolean } = {},
): OpenedBundle {
  const bundle = readBundle(bytes);
  const { file } = bundledJob(bundle, families);
  const own = printer && { profile: printer, name: 'own.printer.json' };
  const { file: job, without } = takenOver(file, { printer: own, fresh });
  const theirs = bundle.files.filter(({ kind }) => kind === 'donor' || (kind === 'printer' && !own));
  return {
    ...{ manifest: bundle.manifest, job, without, files: bundle.files },
    beside: {
      ...Object.fromEntries(theirs.map((each) => [each.path, each.bytes])),
      ...(own && { [own.name]: profileText(own.profile) }),
    },
  };
}
