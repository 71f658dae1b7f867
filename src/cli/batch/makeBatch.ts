import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import type { Family } from '../../family/family.ts';
import type { MadeKind } from '../../job/madeFile.ts';
import { Refused } from '../../job/problem.ts';
import type { ResultFile } from '../../job/resultSchema.ts';
import { printMinutes } from '../../printer/printMinutes.ts';
import { settled } from '../disk/settled.ts';
import { faultText } from '../internalProblem.ts';
import { mustSpare } from '../mustSpare.ts';
import { RefusedFile } from '../refusedFile.ts';
import { type OutputFile, writeTogether } from '../writeTogether.ts';
import { takeHands } from './hands.ts';
import { madeAlready } from './madeAlready.ts';
import { mustNotClash } from './mustNotClash.ts';
import type { Outcome } from './outcome.ts';
import { type SurveyedJob, surveyJob } from './surveyJob.ts';
import { watchProgress } from './watchProgress.ts';

/** What is wanted of several jobs. */
export interface BatchOptions {
  readonly out: string;
  readonly ascii: boolean;
  /** What to write beside each STL. */
  readonly with: readonly Exclude<MadeKind, 'stl'>[];
  /** Make those too that are made already. */
  readonly again: boolean;
  /** Threads to work on; absent: one a core, at most `MOST_HANDS`. */
  readonly hands?: number | undefined;
  /** Module that makes a job on a thread of its own. */
  readonly worker: URL;
}

/** More at once are seldom faster: they share the memory of the machine, and all of them write through one thread. */
const MOST_HANDS = 8;

/** Makes several jobs side by side, and goes on whatever becomes of one of them. What is made already and unchanged stays
 *  as it is. The outcomes come in the order of the paths; a path given twice counts once.
 *  Throws `RefusedFile` before anything is made when two jobs would write the same file. */
export async function makeBatch(
  paths: readonly string[],
  options: BatchOptions,
  families: readonly Family[],
): Promise<readonly Outcome[]> {
  const once = [...new Map(paths.map((path) => [resolve(path), path])).values()];
  const outcomes = new Map<string, Outcome>();
  const watch = watchProgress(once.length);
  const over = (outcome: Outcome): void => {
    outcomes.set(outcome.path, outcome);
    watch.over(outcome);
  };
  try {
    const toMake = await leftToMake(once, options, families, over);
    if (toMake.length > 0) await makeSideBySide(toMake, options, over);
  } finally {
    watch.stop();
  }
  return once.map((path) => outcomes.get(path)!);
}

/** Reads all jobs and says which have to be made; of the others it hands over what became of them. */
async function leftToMake(
  paths: readonly string[],
  { out, ascii, with: others, again }: BatchOptions,
  families: readonly Family[],
  over: (outcome: Outcome) => void,
): Promise<readonly SurveyedJob[]> {
  const kinds = ['stl', ...others] as const;
  const jobs: SurveyedJob[] = [];
  for (const path of paths) {
    const surveyed = await surveyJob(path, families).catch((error: unknown) => notMade(path, error));
    if ('how' in surveyed) over(surveyed);
    else jobs.push(surveyed);
  }
  await mustNotClash(jobs, out, kinds);

  // What a killed run had decided counts as made, and is not left lying where nothing is to be made.
  await settled(out);
  const toMake: SurveyedJob[] = [];
  for (const job of jobs) {
    const result = again ? undefined : await madeAlready(job, { out, kinds, ascii });
    if (result) over(finished('kept', job, result));
    else toMake.push(job);
  }
  return toMake;
}

/** Makes the jobs and hands over the outcome of each as soon as it is there. */
async function makeSideBySide(
  jobs: readonly SurveyedJob[],
  { hands: told, worker, out, ascii, with: others }: BatchOptions,
  over: (outcome: Outcome) => void,
): Promise<void> {
  const count = Math.min(jobs.length, told ?? Math.min(MOST_HANDS, availableParallelism()));
  const hands = takeHands(worker, count);
  // Why the folder takes nothing, a full disk for one: what is not made yet is not even tried then.
  let closed: RefusedFile | undefined;
  // One at a time: the disk is one, and an interrupt meets at most one unfinished write.
  let writing: Promise<unknown> = Promise.resolve();
  const write = async (files: readonly OutputFile[], sources: readonly string[]): Promise<void> => {
    if (closed) throw closed;
    const names = files.map(({ name }) => name);
    await mustSpare(sources, out, names);
    await writeTogether(out, files);
  };

  const makeOne = async (job: SurveyedJob): Promise<Outcome> => {
    const { path, base } = job;
    try {
      if (closed) throw closed;
      const answer = await hands.make({ path, base, out, ascii, with: others });
      if ('refused' in answer) return { how: 'refused', path, ...answer.refused };
      const written = writing.then(() => write(answer.files, answer.sources));
      writing = written.catch(() => {});
      await written;
      return finished('made', job, JSON.parse(answer.text) as ResultFile);
    } catch (error) {
      if (isClosed(error, out)) closed = error;
      return notMade(path, error);
    }
  };

  const queue = jobs.values();
  const lane = async (): Promise<void> => {
    for (const job of queue) over(await makeOne(job));
  };
  try {
    // One lane more than threads, so that none of them waits for a write.
    await Promise.all(Array.from({ length: count + 1 }, lane));
  } finally {
    await hands.letGo();
  }
}

const isClosed = (error: unknown, out: string): error is RefusedFile =>
  error instanceof RefusedFile &&
  error.file === out &&
  error.problems.some(({ code }) => code === 'system_refused' || code === 'being_written');

const finished = (how: 'made' | 'kept', { path, quantity, printer }: SurveyedJob, result: ResultFile) => {
  const { volume, layers } = result.print;
  return { how, path, result, minutes: quantity * printMinutes(volume, layers, printer) } as const;
};

function notMade(path: string, error: unknown): Outcome {
  if (error instanceof Refused) {
    const file = error instanceof RefusedFile ? error.file : path;
    return { how: 'refused', path, file, problems: error.problems };
  }
  return { how: 'broke', path, why: faultText(error) };
}
