import { fileName } from '../../job/fileName.ts';
import type { MadeKind } from '../../job/madeFile.ts';
import type { Problem } from '../../job/problem.ts';
import { resultName } from '../madeFiles.ts';
import { mustSpare } from '../mustSpare.ts';
import { RefusedFile } from '../refusedFile.ts';
import type { SurveyedJob } from './surveyJob.ts';

/** Refuses several jobs when two of them would write a file of the same name, or one of them over a file that another is
 *  made from: the second would take from the first without a word. Throws `RefusedFile` about the folder. */
export async function mustNotClash(
  jobs: readonly SurveyedJob[],
  out: string,
  kinds: readonly MadeKind[],
): Promise<void> {
  const writers = new Map<string, SurveyedJob>();
  const problems: Problem[] = [];
  for (const job of jobs) {
    const taken = namesOf(job, kinds)
      .map((name) => ({ name, writer: writers.get(folded(name)) }))
      .find(({ writer }) => writer !== undefined);
    if (taken) {
      problems.push({
        code: 'names_clash',
        field: taken.name,
        value: '',
        allowed: 'jobs of different names, or runs with different --out',
        reason: `would be written by ${taken.writer!.path} and by ${job.path}`,
      });
    }
    for (const name of namesOf(job, kinds)) writers.set(folded(name), writers.get(folded(name)) ?? job);
  }
  if (problems.length > 0) throw new RefusedFile(out, problems);
  const sources = [...new Set(jobs.flatMap((job) => job.sources))];
  await mustSpare(
    sources,
    out,
    jobs.flatMap((job) => namesOf(job, kinds)),
  );
}

/** Names a job writes; of some kinds it writes either one a part or one for all, and both names are kept for it. */
const namesOf = ({ base, parts }: SurveyedJob, kinds: readonly MadeKind[]): readonly string[] => [
  resultName(base),
  ...kinds.flatMap((kind) => [...new Set(['', ...parts])].map((part) => fileName(base, kind, part))),
];

/** Some file systems take names for one that differ by the case of their letters, or by how an accent is written. */
const folded = (name: string): string => name.normalize('NFC').toLowerCase();
