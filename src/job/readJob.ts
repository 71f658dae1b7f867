import type { Family } from '../family/family.ts';
import { allowedNames } from './nearest.ts';
import { parseJson } from './parseJson.ts';
import { type Prepared, prepare } from './prepare.ts';
import { Refused } from './problem.ts';
import { type Job, jobSchema } from './schema.ts';
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
  const parsed = jobSchema.safeParse(value);
  if (!parsed.success) throw new Refused(problemsOf(value, parsed.error, keysAt));
  const job = parsed.data;
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

function keysAt(path: readonly PropertyKey[]): readonly string[] {
  if (path.length === 0) return Object.keys(jobSchema.shape);
  const part = jobSchema.shape[path[0] as keyof typeof jobSchema.shape];
  const inner = part && 'unwrap' in part ? part.unwrap() : part;
  if (inner && 'shape' in inner) return Object.keys(inner.shape);
  if (inner && 'options' in inner) {
    const options = inner.options as readonly unknown[];
    const object = options.find(
      (option): option is { shape: object } =>
        typeof option === 'object' && option !== null && 'shape' in option,
    );
    return object ? Object.keys(object.shape) : [];
  }
  return [];
}
