import type { Family } from '../family/family.ts';
import { migrateProfile } from '../printer/migrate.ts';
import { keysAt } from './keysAt.ts';
import { allowedNames } from './nearest.ts';
import { parseJson } from './parseJson.ts';
import { type Prepared, prepare } from './prepare.ts';
import { type Problem, Refused } from './problem.ts';
import { type Job, jobSchema } from './schema.ts';
import { unprintable } from './unprintable.ts';
import { problemsOf, shown } from './zodProblems.ts';

/** A job file's value as a job and its family, without looking at the readings yet.
 *  Throws `Refused` with every problem of form: wrong version, fields missing, misspelt or extra, unknown family. */
export function parseJob(value: unknown, families: readonly Family[]): { job: Job; family: Family } {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new Refused([
      {
        code: 'not_a_job',
        field: '',
        value: shown(value),
        allowed: 'a Fettle job: an object with fettle, family and readings',
      },
    ]);
  }
  const version: unknown = Reflect.get(value, 'fettle');
  if (version !== 1) {
    const reason =
      version === undefined
        ? 'is missing'
        : typeof version === 'number' && version > 1
          ? 'comes from a newer Fettle'
          : 'is no version of the job format';
    throw new Refused([
      { code: 'version_unknown', field: 'fettle', value: shown(version), allowed: '1', reason },
    ]);
  }
  const hidden = [...hiddenNames(value), ...unprintable(value)];
  if (hidden.length > 0) throw new Refused(hidden);
  const printer: unknown = Reflect.get(value, 'printer');
  const today = printer === undefined ? value : { ...value, printer: migrateProfile(printer) };
  const parsed = jobSchema.safeParse(today);
  if (!parsed.success) throw new Refused(problemsOf(value, parsed.error, keysAt(jobSchema)));
  const { title, ...untitled } = parsed.data;
  // A title of blanks is none; the family's own stands for it.
  const job: Job = title?.trim() ? parsed.data : untitled;
  const family = families.find(({ id }) => id === job.family);
  if (!family) {
    throw new Refused([
      {
        code: 'family_unknown',
        field: 'family',
        value: shown(job.family),
        allowed: allowedNames(
          job.family,
          families.map(({ id }) => id),
        ),
      },
    ]);
  }
  return { job, family };
}

/** A job from the text of its file, understood through and through. Throws `Refused` with every problem found.
 *  `families` is the list to look the job's family up in. */
export function readJob(text: string, families: readonly Family[]): Prepared {
  const parsed = parseJson(text.replace(/^\uFEFF/, ''), '');
  if (!('json' in parsed)) throw new Refused([parsed]);
  const { job, family } = parseJob(parsed.json, families);
  return prepare(job, family);
}

/** `__proto__` among the names of a map: an own name to JSON, which a map of the schema passes over without a word. */
function hiddenNames(value: object): Problem[] {
  return (['readings', 'choices', 'sizes', 'texts', 'fits', 'ladders'] as const).flatMap((map) => {
    const names: unknown = Reflect.get(value, map);
    return typeof names === 'object' && names !== null && Object.hasOwn(names, '__proto__')
      ? [
          {
            code: 'field_unknown',
            field: `${map}.__proto__`,
            value: '',
            allowed: `names of ${map} of the family`,
            reason: 'is no field of a job',
          },
        ]
      : [];
  });
}
