import { basename } from 'node:path';
import type { LengthUnit } from '../../donor/types.ts';
import { donorFamily } from '../../job/donorFamily.ts';
import { donorTask } from '../../job/donorTask.ts';
import { make } from '../../job/make.ts';
import { prepare } from '../../job/prepare.ts';
import { refusingRefit } from '../../job/refusingRefit.ts';
import { scalingInstead } from '../../job/scalingInstead.ts';
import type { JobFile } from '../../job/schema.ts';
import { loadKernel } from '../../solid/kernel.ts';
import { exitCode } from '../exitCode.ts';
import { baseName } from '../fileNames.ts';
import { knownMaterial } from '../knownMaterial.ts';
import { askLines } from '../measure/askLines.ts';
import { A_JOB, openJobValue } from '../openJob.ts';
import { printVerdict } from '../printVerdict.ts';
import { readJson } from '../readJson.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeMade } from '../writeMade.ts';
import { axisTold } from './axisTold.ts';
import { modelBytes } from './modelBytes.ts';
import { comparisonText, scalingText } from './refitText.ts';
import type { ToldChange } from './toldChange.ts';

interface Asked {
  readonly changes: readonly ToldChange[];
  readonly units?: LengthUnit;
  readonly lopsided?: boolean;
  readonly job?: string;
  readonly material?: string;
  readonly yes?: boolean;
  readonly out: string;
  readonly json?: boolean;
  readonly ascii?: boolean;
}

/** Makes a donor fit: changes of length from the options and the job, bores and posts from the job's readings. Where the
 *  job asks for something and somebody sits at a terminal, it says what it would do and asks. Throws `RefusedFile`. */
export async function refitDonor(path: string, asked: Asked): Promise<void> {
  const bytes = await modelBytes(path, path, '');
  const blamed = asked.job ?? path;
  const opened = await openJobValue(blamed, await jobOf(path, asked));
  const kernel = await loadKernel();
  const { task, prepared, result, interfaces } = blaming(blamed, () =>
    refusingRefit(() => {
      const { job } = opened;
      const task = donorTask(job.donor!, bytes, job);
      const prepared = prepare(job, donorFamily(kernel, task));
      const result = make(kernel, prepared);
      return { task, prepared, result, interfaces: result.interfaces };
    }),
  );
  const changes = result.changes ?? [];
  if (changes.length === 0 && interfaces.length === 0) {
    throw new RefusedFile(blamed, [
      {
        code: 'nothing_to_change',
        field: '',
        value: 'nothing to change',
        allowed: '--axis with --by or --to, or a job with readings',
      },
    ]);
  }
  const looks = looksOf(process.stdout);
  const scaling = scalingInstead(task.donor, changes, interfaces);
  if (!asked.json) {
    for (const line of comparisonText(task.donor, result, looks)) console.log(line);
    for (const line of scalingText(scaling, looks)) console.log(line);
    if (interfaces.length > 0 && !asked.yes && process.stdin.isTTY && !(await agreed())) return;
  }
  const sources = [path, ...(asked.job === undefined ? [] : [asked.job]), ...opened.sources.slice(1)];
  const base = baseName(asked.job ?? path.replace(/\.(stl|3mf)$/i, '-refit'), 'refit');
  const { text, paths } = await writeMade(
    { kernel, prepared, result },
    {
      ...{ base, out: asked.out, sources, ascii: asked.ascii ?? false },
      besides: { changes, ...(scaling && { scaling }) },
    },
  );
  if (asked.json) process.stdout.write(text);
  else printVerdict(result, paths);
  process.exitCode = result.findings.some(({ verdict }) => verdict === 'fails')
    ? exitCode.failed
    : exitCode.done;
}

/** The job as its file has it, or one made of the options alone; the model given stands for the one it names. */
async function jobOf(path: string, asked: Asked): Promise<unknown> {
  const told = asked.job === undefined ? {} : await readJson(asked.job, asked.job, '', A_JOB);
  const given = typeof told === 'object' && told !== null ? (told as Partial<JobFile>) : {};
  const donor = typeof given.donor === 'object' && given.donor !== null ? given.donor : undefined;
  const changes = asked.changes.map(({ axis, by, to, take }) => ({
    axis: axisTold(axis),
    ...(by !== undefined && { by }),
    ...(to !== undefined && { to }),
    ...(take !== undefined && { take: Number(take) }),
  }));
  return {
    fettle: 1,
    family: 'donor',
    ...(asked.material !== undefined && { material: knownMaterial(asked.material) }),
    ...given,
    donor: {
      ...donor,
      file: basename(path),
      ...(asked.units && { units: asked.units }),
      changes: [...(donor?.changes ?? []), ...changes],
      ...(asked.lopsided && { lopsided: true }),
    },
  };
}

async function agreed(): Promise<boolean> {
  const asker = askLines(process.stdin, process.stdout);
  try {
    const line = await asker.ask('make it so? y or n > ');
    return /^y(es)?$/i.test(line?.trim() ?? '');
  } finally {
    asker.close();
  }
}
