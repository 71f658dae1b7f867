import type { LengthUnit } from '../donor/types.ts';
import { donorJob } from '../job/donorJob.ts';
import { type DonorObject, donorObject } from '../job/donorObject.ts';
import { openedDonor } from '../job/donorTask.ts';
import type { JobFile } from '../job/schema.ts';

/** Reads a model of a similar part, STL or 3MF, and says what it is: unit, size, soundness, where it can become longer or
 *  shorter without a trace, bores and posts. `job` refits it, with a place for each reading: give it to `openJob` with the
 *  model beside it under the same name. `units` where the guess is wrong. Lengths in mm. Throws `Refused` for a model that
 *  cannot be read or closed. */
export function donor(
  name: string,
  bytes: Uint8Array,
  { units }: { readonly units?: LengthUnit } = {},
): { readonly donor: DonorObject; readonly job: JobFile } {
  const told = donorObject(openedDonor(bytes, name, units, undefined, ''));
  return { donor: told, job: donorJob({ file: name, units, bores: told.bores, posts: told.posts }) };
}
