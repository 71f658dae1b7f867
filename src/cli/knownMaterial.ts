import { allowedNames } from '../job/nearest.ts';
import { findMaterial, materialNames } from '../standards/materials.ts';
import { RefusedFile } from './refusedFile.ts';

/** The name of a material in its usual spelling. Throws `RefusedFile` that lists the materials. */
export function knownMaterial(name: string): string {
  const found = findMaterial(name);
  if (found !== undefined) return found.name;
  throw new RefusedFile('--material', [
    { code: 'material_unknown', field: '', value: name, allowed: allowedNames(name, materialNames) },
  ]);
}
