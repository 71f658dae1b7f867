import { families } from '../../parts/index.ts';
import type { Family } from '../family/family.ts';
import { allowedNames } from '../job/nearest.ts';
import { Refused } from '../job/problem.ts';
import { shown } from '../job/zodProblems.ts';

/** A family by its id. Throws `Refused`: `family_unknown`, with the near name. */
export function familyOf(id: string): Family {
  const found = families.find((family) => family.id === id);
  if (found) return found;
  const ids = families.map((family) => family.id);
  throw new Refused([
    { code: 'family_unknown', field: 'family', value: shown(id), allowed: allowedNames(id, ids) },
  ]);
}
