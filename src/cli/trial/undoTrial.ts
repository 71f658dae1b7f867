import type { Family } from '../../family/family.ts';
import type { Prepared } from '../../job/prepare.ts';
import type { Problem } from '../../job/problem.ts';
import { profileHash } from '../../job/profileHash.ts';
import type { JobFile } from '../../job/schema.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { day } from '../../output/words/index.ts';
import { withRecord } from '../inspect/trialReadings.ts';
import { openPrepared } from '../openJob.ts';
import { changedJob, profileIn, profilePathOf } from '../placedFiles.ts';
import { RefusedFile } from '../refusedFile.ts';
import { looksOf, wrapped } from '../terminal.ts';
import { writeEverywhere } from '../writeTogether.ts';

/** `fettle trial JOB --undo`: takes back what was said of the last print, and what the printer profile learnt from it, both or
 *  neither; what callipers read of it stays. Only while nothing rests on it: the profile is as that print left it, and
 *  no ladder has been drawn since. Throws `RefusedFile`. */
export async function undoTrial(
  path: string,
  { json }: { readonly json: boolean },
  families: readonly Family[],
): Promise<void> {
  const { prepared } = await openPrepared(path, families);
  const trials = (prepared.job.trials ?? []) as readonly TrialRecord[];
  const last = trials.at(-1);
  const problem = hindrance(prepared, last);
  if (last === undefined || problem !== undefined) throw new RefusedFile(path, [problem!]);

  const before = last.learnt?.before;
  const profile = await profilePathOf(path);
  const index = trials.length - 1;
  const left = unsaid(last);
  const file = await changedJob(path, (job) => {
    const changed = withRecord(path, job, last, index, (record) => unsaid(record) ?? record);
    const kept = left === undefined ? changed.trials?.slice(0, index) : changed.trials;
    const { trials: _, ...rest } = changed;
    return {
      ...rest,
      ...(before && profile === undefined && { printer: before }),
      ...(kept !== undefined && kept.length > 0 && { trials: kept }),
    } as JobFile;
  });
  await writeEverywhere([
    file,
    ...(before && profile !== undefined ? [await profileIn(profile, before)] : []),
  ]);
  const files = [path, ...(before && profile !== undefined ? [profile] : [])];
  if (json) {
    const told = {
      undone: { number: index + 1, date: last.date, felt: last.felt ?? {} },
      kept: left?.inspected ?? null,
      printer: before === undefined ? null : { name: before.name, restored: true },
      files: files.map((each, k) => ({ path: each, kind: k === 0 ? 'job' : 'printer' })),
    };
    process.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
    return;
  }
  const said = [
    `took back what was said of the print of ${day(last.date)}${left === undefined ? '' : '; its readings stay'}`,
    ...(before === undefined ? [] : [`${before.name} is as it was before it learnt from it`]),
  ];
  for (const line of said) for (const part of wrapped(line, looksOf(process.stdout).width)) console.log(part);
  for (const each of files) console.log(`  wrote ${each}`);
}

/** What stands in the way of taking the last print back. */
function hindrance({ printer, job }: Prepared, last: TrialRecord | undefined): Problem | undefined {
  const refuse = (code: string, value: string, allowed: string, reason: string): Problem => ({
    ...{ code, field: '--undo', value, allowed, reason },
  });
  if (last?.felt === undefined)
    return refuse(
      'nothing_to_undo',
      last === undefined ? 'no print on record' : `print of ${day(last.date)}`,
      'a print of which something was said; readings are taken back with "drop" while they are taken',
      last === undefined ? 'leaves nothing to take back' : 'has not been tried yet',
    );
  if (last.learnt !== undefined && last.learnt.after !== profileHash(printer))
    return refuse(
      'trial_rested_on',
      printer.name,
      'another record: say how the next print feels, and it outweighs this one',
      'has changed since it learnt from that print',
    );
  const [group] = Object.entries(job.ladders ?? {}).find(([, ladder]) => ladder.date > last.date) ?? [];
  if (group !== undefined)
    return refuse(
      'trial_rested_on',
      `ladder of ${group}`,
      'another record: say how the next print feels, and it outweighs this one',
      'was drawn since and rests on that print',
    );
  return undefined;
}

/** A record without what was said; undefined where nothing is left. */
function unsaid<R extends Pick<TrialRecord, 'inspected' | 'reworked'> & object>(record: R): R | undefined {
  if (record.inspected === undefined) return undefined;
  const { felt: _, broken: __, note: ___, learnt: ____, ...left } = record as R & TrialRecord;
  const after = Object.keys(record.inspected.after ?? {});
  const { reworked: _____, ...plain } = left;
  // What was read after a file stays with the mark that it was filed.
  return (after.length > 0 ? { ...plain, reworked: after } : plain) as unknown as R;
}
