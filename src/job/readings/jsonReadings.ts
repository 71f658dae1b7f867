import { parseJson } from '../parseJson.ts';
import { type Problem, Refused } from '../problem.ts';
import { shown } from '../zodProblems.ts';
import type { RawReading, RawReadings, ReadThings } from './rawReadings.ts';

const allowedOf = ({ what, example }: ReadThings): string =>
  `readings by ${what}, such as { "${example}": [4.79, 4.80] }, with or without "callipers" around them, or a list of { "id", "readings" }`;

/** Readings from JSON: an object from feature to one reading or a list of them; or the same under `readings` with
 *  `callipers` and `unit` beside it; or a list of objects with the feature as id, feature, interface or number and what was read
 *  as reading, readings, value or measured. Null and blanks are not read. Throws `Refused` with every problem.
 *  @example jsonReadings('{ "3": 4.79 }', { what: 'feature', example: 'bore.3' }).readings // => [{ feature: '3', texts: [4.79], where: '3' }] */
export function jsonReadings(text: string, things: ReadThings): RawReadings {
  const parsed = parseJson(text.replace(/^\uFEFF/, ''), '');
  if (!('json' in parsed)) throw new Refused([parsed]);
  const { json } = parsed;
  const problems: Problem[] = [];
  const found =
    isObject(json) && 'readings' in json && !isReading(json.readings)
      ? wrapped(json, things, problems)
      : whole(json, '', things, problems);
  if (problems.length > 0) throw new Refused(problems);
  return found;
}

function wrapped(json: Fields, things: ReadThings, problems: Problem[]): RawReadings {
  for (const key of Object.keys(json)) {
    if (['readings', 'callipers', 'unit'].includes(key)) continue;
    problems.push({
      code: 'field_unknown',
      field: key,
      value: '',
      allowed: 'readings, callipers, unit',
      reason: 'is no field of a file of readings',
    });
  }
  const { callipers, unit } = json;
  return {
    ...whole(json.readings, 'readings', things, problems),
    ...(callipers === undefined ? {} : { callipers }),
    ...(unit === undefined ? {} : { unit }),
  };
}

function whole(json: unknown, field: string, things: ReadThings, problems: Problem[]): RawReadings {
  if (Array.isArray(json)) {
    return {
      readings: json.flatMap((entry, k) => listed(entry, `${field}[${k}]`, things, problems) ?? []),
      once: false,
    };
  }
  if (isObject(json)) {
    const readings = Object.entries(json).flatMap(([feature, value]) => {
      const where = field === '' ? feature : `${field}.${feature}`;
      return read(feature, value, where, problems) ?? [];
    });
    return { readings, once: true };
  }
  problems.push({ code: 'readings_form', field, value: shown(json), allowed: allowedOf(things) });
  return { readings: [], once: true };
}

const NAMES = ['id', 'feature', 'interface', 'number'] as const;
const VALUES = ['readings', 'reading', 'measured', 'value'] as const;

function listed(
  entry: unknown,
  where: string,
  { what }: ReadThings,
  problems: Problem[],
): RawReading | undefined {
  const name = isObject(entry) ? NAMES.find((key) => key in entry) : undefined;
  const key = isObject(entry) && name !== undefined ? entry[name] : undefined;
  if (!isObject(entry) || (typeof key !== 'string' && typeof key !== 'number')) {
    problems.push({
      code: 'readings_form',
      field: where,
      value: shown(entry),
      allowed: `an object with id, ${what} or number, and readings`,
    });
    return undefined;
  }
  const value = VALUES.find((each) => each in entry);
  return read(String(key), value === undefined ? null : entry[value], where, problems);
}

function read(feature: string, value: unknown, where: string, problems: Problem[]): RawReading | undefined {
  const texts = (Array.isArray(value) ? value : [value]).filter(
    (text) => text !== null && !(typeof text === 'string' && text.trim() === ''),
  );
  if (texts.every((text) => isReading(text))) return { feature, texts, where };
  problems.push({
    code: 'readings_form',
    field: where,
    value: shown(value),
    allowed: 'a number or text, or a list of them',
  });
  return undefined;
}

type Fields = Readonly<Record<string, unknown>>;
const isObject = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isReading = (value: unknown): value is string | number =>
  typeof value === 'string' || typeof value === 'number';
