import { basename, dirname, relative, resolve } from 'node:path';
import type { LengthUnit } from '../../donor/types.ts';
import { donorJob } from '../../job/donorJob.ts';
import { donorObject } from '../../job/donorObject.ts';
import { axisVector, openedDonor } from '../../job/donorTask.ts';
import { jobText } from '../../job/jobText.ts';
import type { JobFile } from '../../job/schema.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { type ProgressBar, progressBar } from '../progressBar.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeNew } from '../writeNew.ts';
import { axisTold } from './axisTold.ts';
import { donorText } from './donorText.ts';
import { modelBytes } from './modelBytes.ts';

interface Asked {
  readonly units: LengthUnit | undefined;
  readonly axis: string | undefined;
  readonly job: string | undefined;
  readonly json: boolean;
}

/** Reads a model and says what it is; with `job` writes a job that refits it. Throws `RefusedFile`. */
export async function describeDonor(path: string, { units, axis, job, json }: Asked): Promise<void> {
  const bytes = await modelBytes(path, path, '');
  const bar = readingBar(bytes.length);
  const donor = blaming(path, () => openedDonor(bytes, basename(path), units, bar.update, ''));
  bar.stop();
  const named = axis === undefined ? [] : [namedAxis(path, axis)];
  const object = donorObject(donor, named);
  if (job !== undefined) await writeNew(job, jobText(refitJob(path, job, units, object)));
  if (json) process.stdout.write(`${JSON.stringify(object, null, 2)}\n`);
  else {
    for (const line of donorText(object, path, looksOf(process.stdout))) console.log(line);
    if (job !== undefined) console.log(`wrote ${job}`);
  }
}

/** Models smaller than this are read before anybody could look, bytes. */
const WORTH_SHOWING = 5 * 1024 * 1024;

function readingBar(bytes: number): ProgressBar {
  if (bytes < WORTH_SHOWING) return { update: () => {}, stop: () => {} };
  const bar = progressBar({ what: 'reading', whole: 100, behind: '{percentage} %' });
  return { ...bar, update: (share) => bar.update(Math.round(100 * share)) };
}

/** A direction as the option gives it. Throws `RefusedFile`. */
function namedAxis(path: string, text: string): Vec3 {
  const told = axisTold(text);
  const axis = Array.isArray(told)
    ? axisVector(told as Vec3)
    : 'xyz'.includes(told) && told.length === 1
      ? axisVector(told as 'x')
      : undefined;
  if (axis) return axis;
  throw new RefusedFile(path, [
    { code: 'axis_unclear', field: '--axis', value: text, allowed: 'x, y, z or three numbers such as 1,0,2' },
  ]);
}

/** A job that refits the model, which must lie beside the job or below it. */
function refitJob(
  path: string,
  job: string,
  units: LengthUnit | undefined,
  { bores, posts }: Pick<ReturnType<typeof donorObject>, 'bores' | 'posts'>,
): JobFile {
  const file = relative(dirname(resolve(job)), resolve(path)).replaceAll('\\', '/');
  if (file.startsWith('..'))
    throw new RefusedFile(job, [
      {
        code: 'file_elsewhere',
        field: '',
        value: job,
        allowed: `a file in the folder of ${path}, or in one above it, so that job and model travel together`,
      },
    ]);
  return donorJob({ file, units, bores, posts });
}
