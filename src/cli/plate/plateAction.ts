import { basename, join } from 'node:path';
import type { Family } from '../../family/family.ts';
import { sha256Hex } from '../../job/hash.ts';
import { type JobPlate, jobPlate } from '../../job/jobPlate.ts';
import type { MadeJob } from '../../job/madeJob.ts';
import { plateAgreement } from '../../job/plateAgreement.ts';
import { plateBase, plateFiles } from '../../job/plateFiles.ts';
import { type PlateObject, plateObject } from '../../job/plateObject.ts';
import { PlateRefused } from '../../job/plateRefused.ts';
import { exitCode } from '../exitCode.ts';
import { makeJob } from '../makeJob.ts';
import { mustSpare } from '../mustSpare.ts';
import { RefusedFile } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeTogether } from '../writeTogether.ts';
import { plateText } from './plateText.ts';

interface PlateWanted {
  readonly out: string;
  readonly json: boolean;
  readonly name?: string;
  /** mm. */
  readonly spacing?: number;
}

/** Makes the jobs at `paths`, lays their parts out together, writes the plate into `out`, all of it or nothing, and says what it
 *  is. Gives the exit code. Throws `RefusedFile`, or `AggregateError` of several. */
export async function plateAction(
  paths: readonly string[],
  { out, json, name, spacing }: PlateWanted,
  families: readonly Family[],
): Promise<number> {
  const jobs = await allMade(paths, families);
  mustAgree(jobs, paths);
  const laid = laidOut(jobs, paths, spacing);

  const base = plateBase(basename(name ?? paths[0]!));
  const files = plateFiles(jobs, laid, base);
  const report = `${base}.json`;
  const names = [...files.map((file) => file.name), report];
  await mustSpare(
    jobs.flatMap(({ sources }) => sources),
    out,
    names,
  );
  const object = plateObject({
    laid,
    jobs: jobs.map(({ result }, k) => ({ file: paths[k]!, result })),
    files: files.map(({ kind, name: file, bytes, triangles }): PlateObject['files'][number] => ({
      ...{ path: join(out, file), kind, sha256: sha256Hex(bytes) },
      ...(triangles !== undefined && { triangles }),
    })),
  });
  const text = `${JSON.stringify(object, null, 2)}\n`;
  await writeTogether(out, [...files, { name: report, bytes: new TextEncoder().encode(text) }]);

  if (json) process.stdout.write(text);
  else {
    const results = jobs.map(({ result }) => result);
    const written = names.map((file) => join(out, file));
    for (const line of plateText(laid, results, written, looksOf(process.stdout))) console.log(line);
  }
  const failing = jobs.some(({ result }) => result.findings.some(({ verdict }) => verdict === 'fails'));
  return failing ? exitCode.failed : exitCode.done;
}

type Made = MadeJob & { readonly sources: readonly string[] };

/** All jobs, one after the other. What is wrong with any of them is said of all. */
async function allMade(paths: readonly string[], families: readonly Family[]): Promise<readonly Made[]> {
  const made: Made[] = [];
  const refused: RefusedFile[] = [];
  for (const path of paths) {
    try {
      made.push(await makeJob(path, families));
    } catch (error) {
      if (!(error instanceof RefusedFile)) throw error;
      refused.push(error);
    }
  }
  mustBeNone(refused);
  return made;
}

function laidOut(jobs: readonly Made[], paths: readonly string[], spacing: number | undefined): JobPlate {
  try {
    return jobPlate(jobs[0]!.kernel, jobs, spacing === undefined ? {} : { spacing });
  } catch (error) {
    if (!(error instanceof PlateRefused)) throw error;
    throw new RefusedFile(paths[error.job]!, error.problems);
  }
}

/** Refuses jobs that cannot be printed in one go with the first one. */
function mustAgree(jobs: readonly Made[], paths: readonly string[]): void {
  const { prepared } = jobs[0]!;
  mustBeNone(
    jobs.flatMap((job, k) => {
      const problems = plateAgreement(job.prepared, prepared, paths[0]!);
      return problems.length === 0 ? [] : [new RefusedFile(paths[k]!, problems)];
    }),
  );
}

function mustBeNone(refused: readonly RefusedFile[]): void {
  if (refused.length > 1) throw new AggregateError(refused);
  if (refused.length === 1) throw refused[0]!;
}
