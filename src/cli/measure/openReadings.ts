import { askedReadings, type Family } from '../../family/family.ts';
import { allowedNames } from '../../job/nearest.ts';
import { prepareWithoutReadings } from '../../job/prepareWithoutReadings.ts';
import type { Bench, Reading } from '../../job/takenReading.ts';
import { openJob } from '../openJob.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';

/** What a job still asks for and has, in the order of measuring, and how its owner measures.
 *  Throws `RefusedFile` for a job that is not of the right form; readings that are missing or doubtful are no reason. */
export async function openReadings(
  path: string,
  families: readonly Family[],
): Promise<{ readonly readings: readonly Reading[]; readonly bench: Bench }> {
  const { job, family } = await openJob(path, families);
  const { callipers, values } = blaming(path, () => prepareWithoutReadings(job, family));
  const readings = askedReadings(family, values.choices).map(([id, spec]) => ({
    id,
    spec,
    texts: (job.readings[id] ?? []).map(String),
  }));
  return { readings, bench: { unit: job.unit, callipers } };
}

/** The reading of that name, as in the job or as on the sheet. Throws `RefusedFile` and proposes the near name. */
export function onlyReading(path: string, name: string, readings: readonly Reading[]): Reading {
  const plain = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, '');
  const found = readings.find(({ id, spec }) =>
    [id, spec.name].some((known) => plain(known) === plain(name)),
  );
  if (found !== undefined) return found;
  const ids = readings.map(({ id }) => id);
  throw new RefusedFile(path, [
    { code: 'reading_unknown', field: '--only', value: name, allowed: allowedNames(name, ids) },
  ]);
}
