import type { z } from 'zod';
import { allowedNames } from './nearest.ts';
import type { Problem } from './problem.ts';

/** `readings.barDiameter[0]` from zod's path. */
export function fieldOf(path: readonly PropertyKey[]): string {
  return path
    .map((key, k) => (typeof key === 'number' ? `[${key}]` : `${k === 0 ? '' : '.'}${String(key)}`))
    .join('');
}

/** A value as shown in a sentence: JSON, cut to 60 characters. */
export function shown(value: unknown): string {
  if (value === undefined) return '';
  const text = JSON.stringify(value) ?? String(value);
  return text.length <= 60 ? text : `${text.slice(0, 57)}...`;
}

function at(whole: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) => (typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined),
    whole,
  );
}

/** What zod calls a kind of value, in the words of a sentence. */
const kinds: Readonly<Record<string, string>> = {
  array: 'a list',
  int: 'a whole number',
  number: 'a number',
  object: 'an object',
  record: 'an object',
  string: 'a text',
  tuple: 'a list of two numbers',
};
const kindOf = (expected: string): string => kinds[expected] ?? `a ${expected}`;

const formats: Readonly<Record<string, string>> = { date: 'a date, YYYY-MM-DD' };

const bounds = (
  issue: { minimum?: unknown; maximum?: unknown; origin?: string },
  what: 'least' | 'most',
): string => {
  const bound = what === 'least' ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
  return issue.origin === 'string'
    ? `${bound} characters`
    : issue.origin === 'array'
      ? `${bound} entries`
      : bound;
};

/** zod's issues as problems in Fettle's words; one unknown key is one problem, with the near name proposed.
 *  `keysAt` names the keys allowed at a path; `what` is the kind of file, as in "is no field of a job". */
export function problemsOf(
  whole: unknown,
  error: z.ZodError,
  keysAt: (path: readonly PropertyKey[]) => readonly string[],
  what = 'a job',
): Problem[] {
  const problems = (issue: z.core.$ZodIssue): Problem[] => {
    const field = fieldOf(issue.path);
    const value = shown(at(whole, issue.path));
    const missing = value === '' ? { reason: 'is missing' } : {};
    switch (issue.code) {
      case 'unrecognized_keys':
        return issue.keys.map((key) => ({
          code: 'field_unknown',
          field: fieldOf([...issue.path, key]),
          value: '',
          allowed: allowedNames(key, keysAt(issue.path)),
          reason: `is no field of ${what}`,
        }));
      case 'invalid_type':
        return [{ code: 'field_type', field, value, allowed: kindOf(issue.expected), ...missing }];
      case 'invalid_value':
        return [
          { code: 'field_value', field, value, allowed: issue.values.map(String).join(', '), ...missing },
        ];
      case 'too_small':
        return [{ code: 'field_range', field, value, allowed: bounds(issue, 'least') }];
      case 'too_big':
        return [{ code: 'field_range', field, value, allowed: bounds(issue, 'most') }];
      case 'invalid_union': {
        // The branch that came nearest tells most; that is the one with the deepest complaint.
        const depth = (issues: readonly z.core.$ZodIssue[]): number =>
          Math.max(0, ...issues.map((i) => i.path.length));
        const [best] = [...issue.errors].sort((a, b) => depth(b) - depth(a));
        if (best && depth(best) > 0) {
          return best.flatMap((inner) => problems({ ...inner, path: [...issue.path, ...inner.path] }));
        }
        const asked = issue.errors.flatMap((issues) =>
          issues.map((inner) => {
            if (inner.code === 'invalid_type') return kindOf(inner.expected);
            if (inner.code === 'invalid_value') return inner.values.join(', ');
            if (inner.code === 'invalid_format') return inner.message;
            // The only list among alternatives is a clearance window.
            return inner.code === 'too_big' || inner.code === 'too_small' ? kindOf('tuple') : '';
          }),
        );
        return [
          {
            code: 'field_type',
            field,
            value,
            allowed: asked.filter((kind) => kind !== '').join(' or '),
            ...missing,
          },
        ];
      }
      case 'invalid_format':
        return [{ code: 'field_value', field, value, allowed: formats[issue.format] ?? issue.message }];
      default:
        return [{ code: 'field_value', field, value, allowed: issue.message }];
    }
  };
  return error.issues.filter(isTightest).flatMap(problems);
}

/** Whether no other complaint of the same kind about the same place asks for less: a whole number is also held to those
 *  that JavaScript counts. */
function isTightest(issue: z.core.$ZodIssue, _: number, all: readonly z.core.$ZodIssue[]): boolean {
  if (issue.code !== 'too_big') return true;
  return !all.some(
    (other) =>
      other.code === 'too_big' &&
      fieldOf(other.path) === fieldOf(issue.path) &&
      other.maximum < issue.maximum,
  );
}
