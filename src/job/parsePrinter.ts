import { migrateProfile, PROFILE_VERSION } from '../printer/migrate.ts';
import { printerProfileSchema } from '../printer/profile.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { keysAt } from './keysAt.ts';
import { Refused } from './problem.ts';
import { unprintable } from './unprintable.ts';
import { problemsOf, shown } from './zodProblems.ts';

export const A_PROFILE = 'a printer profile, as "fettle printer new" writes it';

/** A printer file's value as a profile in today's format, whatever version it was written in. Throws `Refused` with every
 *  problem found: foreign, of a newer version, fields missing, misspelt or out of range, texts that are not plain. */
export function parsePrinter(value: unknown): PrinterProfile {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new Refused([{ code: 'not_a_printer', field: '', value: shown(value), allowed: A_PROFILE }]);
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
    throw new Refused([
      {
        code: 'version_unknown',
        field: 'fettlePrinter',
        value: shown(version),
        allowed: `1 to ${PROFILE_VERSION}`,
        reason,
      },
    ]);
  }
  const hidden = unprintable(value);
  if (hidden.length > 0) throw new Refused(hidden);
  const parsed = printerProfileSchema.safeParse(today);
  if (parsed.success) return parsed.data;
  throw new Refused(problemsOf(value, parsed.error, keysAt(printerProfileSchema), 'a printer profile'));
}
