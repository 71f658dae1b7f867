import { join } from 'node:path';
import type { Family } from '../../family/family.ts';
import { bundle } from '../../job/bundle.ts';
import { sha256Hex } from '../../job/hash.ts';
import { make } from '../../job/make.ts';
import type { Job, JobFile } from '../../job/schema.ts';
import { loadKernel } from '../../solid/kernel.ts';
import { besideJob } from '../besideJob.ts';
import { exitCode } from '../exitCode.ts';
import { baseName } from '../fileNames.ts';
import { askLines } from '../measure/askLines.ts';
import { mustSpare } from '../mustSpare.ts';
import { openPrepared } from '../openJob.ts';
import { changedJob } from '../placedFiles.ts';
import { readJson } from '../readJson.ts';
import { blaming } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeEverywhere } from '../writeTogether.ts';
import { askTerms, type Terms, termsTold } from './askTerms.ts';
import { bundleText } from './bundleText.ts';

interface Asked extends Terms {
  readonly out: string;
  readonly json: boolean;
}

/** Makes a job and puts all of it into one bundle, and what was said about author and licence into the job, both or
 *  neither. Asks for author and licence where nobody was asked yet and somebody sits there. Throws `RefusedFile`. */
export async function makeBundle(path: string, asked: Asked, families: readonly Family[]): Promise<void> {
  const { prepared: opened, sources } = await openPrepared(path, families);
  const file = (await readJson(path, path, '', 'a job file')) as JobFile;
  const terms = await termsOf(path, file, asked);
  const withTerms = (job: JobFile): JobFile => replaced(job, terms);
  const job = replaced(opened.job, terms);
  const changed = job.author !== opened.job.author || job.licence !== opened.job.licence;
  const prepared = { ...opened, job };

  const kernel = await loadKernel();
  const base = baseName(path, job.family);
  const donor = await donorBytes(path, job);
  const { result, made } = blaming(path, () => {
    const result = make(kernel, prepared);
    const source = { kernel, prepared, result, base, file: withTerms(file), ...(donor && { donor }) };
    return { result, made: bundle(source) };
  });
  await mustSpare(sources, asked.out, [made.name]);
  await writeEverywhere([
    { folder: asked.out, name: made.name, bytes: made.bytes },
    ...(changed ? [await changedJob(path, withTerms)] : []),
  ]);

  const written = join(asked.out, made.name);
  if (asked.json) {
    const told = {
      job: result.job,
      chance: result.chance,
      ...terms,
      file: { path: written, kind: 'bundle', bytes: made.bytes.length, sha256: sha256Hex(made.bytes) },
      contents: made.files.map(({ path, kind, bytes }) => ({
        ...{ path, kind, bytes: bytes.length, sha256: sha256Hex(bytes) },
      })),
    };
    process.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
  } else {
    const about = { result, terms, written, made, job: path, remembered: changed };
    for (const line of bundleText(about, looksOf(process.stdout))) console.log(line);
  }
  process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
    ? exitCode.failed
    : exitCode.done;
}

/** What is said about author and licence: by options, by the job, or now. An empty licence in the job tells that it was
 *  asked for before. */
async function termsOf(path: string, file: JobFile, { author, licence, json }: Asked): Promise<Terms> {
  const told = termsTold(path, file, { author, licence });
  const unasked = file.licence === undefined && author === undefined && licence === undefined;
  if (!unasked || json || process.stdin.isTTY !== true || process.stdout.isTTY !== true) return told;
  const asker = askLines(process.stdin, process.stdout);
  try {
    const say = (line: string) => console.log(line);
    return await askTerms(told, { asker, looks: looksOf(process.stdout), say });
  } finally {
    asker.close();
  }
}

/** The job with these terms and no others. */
function replaced<T extends { author?: string | undefined; licence?: string | undefined }>(
  job: T,
  { author, licence }: Terms,
): T {
  const { author: _, licence: __, ...rest } = job;
  return { ...rest, ...(author !== undefined && { author }), ...(licence !== undefined && { licence }) } as T;
}

async function donorBytes(path: string, { donor }: Pick<Job, 'donor'>): Promise<Uint8Array | undefined> {
  if (donor === undefined) return undefined;
  const { A_MODEL, modelBytes } = await import('../donor/modelBytes.ts');
  return modelBytes(path, besideJob(path, donor.file, 'donor.file', A_MODEL), 'donor.file');
}
