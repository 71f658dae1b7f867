import type { Family } from '../../family/family.ts';
import { takenBack, withTakenBack } from '../../job/trial/takenBack.ts';
import { day } from '../../output/words/index.ts';
import { openPrepared } from '../openJob.ts';
import { changedJob, profileIn, profilePathOf } from '../placedFiles.ts';
import { blaming } from '../refusedFile.ts';
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
  const back = blaming(path, () => takenBack(prepared, '--undo'));
  const { last, index, left, printer: before } = back;
  const profile = await profilePathOf(path);
  const file = await changedJob(path, (job) =>
    blaming(path, () => withTakenBack(job, back, profile === undefined)),
  );
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
