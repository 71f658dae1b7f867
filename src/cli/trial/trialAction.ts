import type { Family } from '../../family/family.ts';
import { type BrokenAdvice, brokenAdvice } from '../../job/inspection/brokenAdvice.ts';
import type { CurrentTrial } from '../../job/inspection/currentTrial.ts';
import { inspect } from '../../job/inspection/inspection.ts';
import type { Prepared } from '../../job/prepare.ts';
import { Refused } from '../../job/problem.ts';
import type { JobFile } from '../../job/schema.ts';
import { trialEvidence } from '../../job/trial/trialEvidence.ts';
import { type TrialOutcome, trialOutcome } from '../../job/trial/trialOutcome.ts';
import { saidOf, type TrialSaid } from '../../job/trial/trialSaid.ts';
import { type FileTrial, withRecord } from '../../job/trial/withRecord.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { day } from '../../output/words/index.ts';
import { openPrint, type ToldPrint } from '../openPrint.ts';
import { changedJob, profileIn, profilePathOf, writeAfresh } from '../placedFiles.ts';
import { blaming } from '../refusedFile.ts';
import { talkBeside } from '../talk.ts';
import { wrapped } from '../terminal.ts';
import { type ToldTrial, tells, toldTrial } from './toldTrial.ts';
import { trialText } from './trialText.ts';

export interface TrialOptions extends ToldTrial, ToldPrint {
  readonly json?: true;
}

/** `fettle trial`: how a print felt on the machine, into the job, and what follows for the printer into its profile, both or
 *  neither. Throws `RefusedFile`. */
export async function trialAction(
  path: string,
  options: TrialOptions,
  families: readonly Family[],
): Promise<void> {
  const { prepared, current, meetings } = await openPrint(path, options, families);
  const { output, looks, say } = talkBeside(options.json);

  let said: TrialSaid | undefined;
  if (tells(options)) {
    said = blaming(path, () => {
      const { sizes } = inspect(prepared, current.record);
      const read = Object.fromEntries(sizes.map(({ id, clearance }) => [id, clearance]));
      return toldTrial(options, meetings, current.record, read);
    });
  } else {
    const { askLines } = await import('../measure/askLines.ts');
    const { askTrial } = await import('./askTrial.ts');
    for (const line of wrapped(introduction(current), looks.width)) say(line);
    const asker = askLines(process.stdin, output);
    try {
      const ring = () => void (output.isTTY && output.write('\u0007'));
      said = await askTrial(meetings, current.record, { asker, looks, say, ring });
    } finally {
      asker.close();
    }
    say('');
    if (said === undefined || isNothing(said, current.record)) {
      say(
        said === undefined
          ? 'nothing is on record of this'
          : 'nothing was said, so nothing is on record of it',
      );
      return;
    }
  }
  const judged = saidOf(current.record, said);
  const outcome = blaming(path, () => trialOutcome(prepared, judged, current.index));
  const { record, after, lesson } = outcome;
  const advice = await adviceOn(path, prepared, said.broken);
  // Last, so that what cannot be reckoned leaves everything as it was.
  const files = await write(path, outcome, current);

  const { job, family, material, printer } = prepared;
  const title = job.title ?? family.title;
  if (options.json) {
    const evidence = Object.keys({ ...record.felt, ...record.inspected?.readings }).flatMap((id) => {
      const found = trialEvidence(
        after,
        record,
        id,
        after.job.trials?.slice(0, current.index) as TrialRecord[],
      );
      return found === undefined ? [] : [[id, found] as const];
    });
    const object = {
      job: { title, family: family.id, path },
      trial: { number: current.index + 1, ...withoutLearnt(record) },
      taken: said.taken,
      advice,
      evidence: Object.fromEntries(evidence),
      drawn: outcome.sizes,
      chance: outcome.chance,
      printer: lesson === null ? null : { name: printer.name, learnt: lesson.learnt },
      files: files.map((file, k) => ({ path: file, kind: k === 0 ? 'job' : 'printer' })),
    };
    process.stdout.write(`${JSON.stringify(object, null, 2)}\n`);
    return;
  }
  const lines = trialText(
    {
      ...{ title, made: `${material.name}, ${printer.name}`, record, said, meetings, advice, lesson },
      ...{ sizes: outcome.sizes, chance: outcome.chance, job: path, files },
    },
    looks,
  );
  for (const line of lines) say(line);
}

const withoutLearnt = ({ learnt: _, ...record }: TrialRecord) => record;

const isNothing = ({ felt, broken, note }: TrialSaid, { inspected }: TrialRecord): boolean =>
  Object.keys(felt).length === 0 && broken.length === 0 && note === undefined && inspected === undefined;

/** Which print is meant, before anything is asked. */
function introduction({ record, isNew, changed, index }: CurrentTrial): string {
  if (!isNew)
    return `Print ${index + 1} of this job, first spoken of on ${day(record.date)}. Another one: --again.`;
  const fresh = `Print ${index + 1} of this job, as it is drawn now.`;
  return changed || index > 0 ? `${fresh} Print ${index} still: --last.` : fresh;
}

/** Writes the record, and the profile with what it learnt, both or neither; gives the paths written. What others have written
 *  into the job meanwhile stays, but where they spoke of the same print, or changed the profile, nothing is written. */
async function write(
  path: string,
  { record, lesson }: TrialOutcome,
  { record: before, index }: CurrentTrial,
): Promise<readonly string[]> {
  const learnt = lesson?.learnt ? lesson.after : undefined;
  const profile = await profilePathOf(path);
  const inJob = profile === undefined ? learnt : undefined;
  const withTrial = (job: JobFile): JobFile => {
    const changed = blaming(path, () =>
      withRecord(job, record, index, (there) => {
        // Where it is not there yet, it is put there first, and says all of it already.
        if (job.trials?.[index] !== undefined) mustSayTheSame(there, before, index);
        return {
          ...(record as FileTrial),
          // A reading taken meanwhile stays.
          ...(there.inspected && { inspected: there.inspected }),
        };
      }),
    );
    return { ...changed, ...(inJob && { printer: inJob }) } as JobFile;
  };
  await writeAfresh(path, async () => [
    // A profile in the job must be the one that was learnt from.
    await changedJob(path, withTrial, inJob ? {} : { meanwhile: 'stays' }),
    ...(learnt && profile !== undefined ? [await profileIn(profile, learnt)] : []),
  ]);
  return learnt && profile !== undefined ? [path, profile] : [path];
}

/** Refuses where somebody else has said something of the same print since. Throws `Refused`. */
function mustSayTheSame(there: FileTrial, before: TrialRecord, index: number): void {
  const said = ({ felt, broken, note, reworked }: FileTrial | TrialRecord) =>
    JSON.stringify([felt ?? {}, broken ?? [], note ?? '', reworked ?? []]);
  if (said(there) === said(before)) return;
  throw new Refused([
    {
      code: 'trial_changed',
      field: `trials[${index}]`,
      value: '',
      allowed: 'the record as it was when this began; nothing was written, so run it again',
      reason: 'somebody else has spoken of this print meanwhile',
    },
  ]);
}

/** What the findings of the part as it was made say of what broke. */
async function adviceOn(
  path: string,
  prepared: Prepared,
  broken: readonly string[],
): Promise<readonly BrokenAdvice[]> {
  if (broken.length === 0) return [];
  const { make } = await import('../../job/make.ts');
  const { loadKernel } = await import('../../solid/kernel.ts');
  const kernel = await loadKernel();
  const { findings } = blaming(path, () => make(kernel, prepared));
  return broken.map((text) => brokenAdvice(text, findings));
}
