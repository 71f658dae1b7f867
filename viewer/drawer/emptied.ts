import type { JobFile } from '../../src/job/schema.ts';

/** A job with nothing read yet of the same kind of part: how it is built, material and printer stay; readings, and what was
 *  felt or tried of earlier prints, go. */
export function emptied(job: JobFile): JobFile {
  const { title: _, ladders: __, trials: ___, note: ____, author: _____, ...rest } = job;
  const readings = Object.keys(job.readings ?? {}).map((id): [string, string[]] => [id, []]);
  return { ...rest, readings: Object.fromEntries(readings) };
}

/** Whether a job still is the example, or holds one of its readings unchanged under its title. */
export function isExample(job: JobFile, example: JobFile): boolean {
  if (job.title !== example.title || job.family !== example.family) return false;
  return Object.entries(example.readings ?? {}).some(
    ([id, texts]) => texts.length > 0 && JSON.stringify(job.readings?.[id]) === JSON.stringify(texts),
  );
}
