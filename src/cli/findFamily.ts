import type { Family } from '../family/family.ts';
import { allowedNames } from '../job/nearest.ts';
import { RefusedFile } from './refusedFile.ts';

/** The family of that id. Throws `RefusedFile` that lists the families and proposes the near one. */
export function findFamily(id: string, families: readonly Family[]): Family {
  const found = families.find((family) => family.id === id);
  if (found !== undefined) return found;
  const ids = families.map((family) => family.id);
  throw new RefusedFile(id, [
    { code: 'family_unknown', field: '', value: 'no such family', allowed: allowedNames(id, ids) },
  ]);
}
