import { defaultPrinter } from './defaultPrinter.ts';

/** Version of the profile format this Fettle writes. */
export const PROFILE_VERSION = 2;

/** The value of a profile file in today's format, when it is of an older one; anything else comes back as it is, for
 *  the schema to judge. Version 1 knew nothing of material, first layer height, sag and skew: they take the doubt of a
 *  printer nobody has measured. The value given is not changed. */
export function migrateProfile(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  if (Reflect.get(value, 'fettlePrinter') !== 1) return value;
  const { material, firstLayerError, levelSag, skew } = defaultPrinter;
  return { ...value, fettlePrinter: PROFILE_VERSION, material, firstLayerError, levelSag, skew };
}
