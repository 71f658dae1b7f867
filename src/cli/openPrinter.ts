import { keysAt } from '../job/keysAt.ts';
import { problemsOf, shown } from '../job/zodProblems.ts';
import { migrateProfile, PROFILE_VERSION } from '../printer/migrate.ts';
import { printerProfileSchema } from '../printer/profile.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { readJson } from './openJob.ts';
import { RefusedFile } from './refusedFile.ts';

const A_PROFILE = 'a printer profile, as "fettle printer new" writes it';

/** Reads a printer profile from its file, in today's format whatever version it was written in.
 *  Throws `RefusedFile` with every problem found: no such file, no JSON, foreign, of a newer version, fields missing,
 *  misspelt or out of range. */
export async function openPrinter(path: string): Promise<PrinterProfile> {
  const value = await readJson(path, path, '', A_PROFILE);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new RefusedFile(path, [
      { code: 'not_a_printer', field: '', value: shown(value), allowed: A_PROFILE },
    ]);
  }
  const today = migrateProfile(value);
  const version: unknown = Reflect.get(today as object, 'fettlePrinter');
  if (version !== PROFILE_VERSION) {
    const reason =
      version === undefined
        ? 'is missing'
        : typeof version === 'number' && version > PROFILE_VERSION
          ? 'comes from a newer Fettle'
          : 'is no version of the printer profile';
    throw new RefusedFile(path, [
      {
        code: 'version_unknown',
        field: 'fettlePrinter',
        value: shown(version),
        allowed: `1 to ${PROFILE_VERSION}`,
        reason,
      },
    ]);
  }
  const parsed = printerProfileSchema.safeParse(today);
  if (parsed.success) return parsed.data;
  throw new RefusedFile(
    path,
    problemsOf(value, parsed.error, keysAt(printerProfileSchema), 'a printer profile'),
  );
}
