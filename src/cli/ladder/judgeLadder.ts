import type { Family } from '../../family/family.ts';
import { judgedLadder } from '../../job/judgedLadder.ts';
import { ladderPart } from '../../job/ladderGroup.ts';
import { allowedNames } from '../../job/nearest.ts';
import type { Prepared } from '../../job/prepare.ts';
import type { LadderRecord } from '../../job/schema.ts';
import { openPrepared } from '../openJob.ts';
import { profileIn, profilePathOf } from '../placedFiles.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeEverywhere } from '../writeTogether.ts';
import { jobWith } from './ladderStore.ts';
import { type ToldVerdict, verdictTold } from './toldVerdict.ts';
import { remarksOf, verdictText } from './verdictText.ts';

/** Writes down how the rungs of a printed ladder felt: into the job, and what follows for the printer into its profile,
 *  both or neither. Throws `RefusedFile`. */
export async function judgeLadder(
  path: string,
  name: string,
  told: ToldVerdict & { readonly json: boolean },
  families: readonly Family[],
): Promise<void> {
  const { prepared: whole } = await openPrepared(path, families);
  const { prepared, group } = blaming(path, () => ladderPart(whole, name));
  const printed = ladderOf(path, prepared, group);
  const felt = verdictTold(path, told, printed);

  // A profile that no file and no job holds is everybody's; it does not learn.
  const profilePath = await profilePathOf(path);
  const { record, lesson, learnt, shift, drawn, chance } = blaming(path, () =>
    judgedLadder(prepared, group, printed, felt),
  );

  const files = [
    await jobWith(path, group, record, profilePath === undefined ? learnt : undefined),
    ...(learnt && profilePath !== undefined ? [await profileIn(profilePath, learnt)] : []),
  ];
  await writeEverywhere(files);

  const written = [path, ...(files.length > 1 ? [profilePath!] : [])];
  const about = { felt, record, shift, job: path, group };
  if (told.json) {
    const said = {
      group,
      felt,
      shift: { value: shift.shift, u: shift.u, before: { value: 0, u: record.doubt.u } },
      remarks: remarksOf(about),
      drawn,
      chance,
      printer: lesson === null ? null : { name: prepared.printer.name, learnt: lesson.learnt },
      files: written.map((file, k) => ({ path: file, kind: k === 0 ? 'job' : 'printer' })),
    };
    process.stdout.write(`${JSON.stringify(said, null, 2)}\n`);
    return;
  }
  const title = prepared.job.title ?? prepared.family.title;
  const lines = verdictText(
    { ...about, title, drawn, chance, lesson, files: written },
    looksOf(process.stdout),
  );
  for (const line of lines) console.log(line);
}

/** The ladder of that group as the job remembers it. */
function ladderOf(path: string, { job }: Prepared, group: string): LadderRecord {
  const ladders = job.ladders ?? {};
  const found = Object.hasOwn(ladders, group) ? ladders[group] : undefined;
  if (found) return found;
  const known = Object.keys(ladders);
  throw new RefusedFile(path, [
    {
      code: 'ladder_not_printed',
      field: `ladders.${group}`,
      value: '',
      allowed:
        known.length > 0 ? allowedNames(group, known) : `first "fettle ladder ${path} ${group}", printed`,
      reason: 'has not been drawn yet, so there are no numbers to speak of',
    },
  ]);
}
