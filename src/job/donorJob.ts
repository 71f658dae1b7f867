import type { LengthUnit } from '../donor/types.ts';
import { lengthReadings } from './lengthReadings.ts';
import type { JobFile } from './schema.ts';

/** What a job is made for that refits a model. */
export interface FoundDonor {
  /** Name of the model as the job has it. */
  readonly file: string;
  /** What its numbers are, where somebody said so. */
  readonly units?: LengthUnit | undefined;
  readonly bores: readonly { readonly id: string }[];
  readonly posts: readonly { readonly id: string }[];
}

/** A job that refits a model, with a place for a reading of each thing that was found on it. */
export function donorJob({ file, units, bores, posts }: FoundDonor): JobFile {
  const ids = [...[...bores, ...posts].map(({ id }) => id), ...Object.keys(lengthReadings)];
  return {
    fettle: 1,
    family: 'donor',
    title: `Refit of ${file.split('/').at(-1)}`,
    quantity: 1,
    unit: 'mm',
    donor: { file, ...(units && { units }), changes: [] },
    callipers: { scale: 'digital', resolution: '0.01', zero: '0' },
    readings: Object.fromEntries(ids.map((id) => [id, []])),
    material: 'PETG',
  };
}
