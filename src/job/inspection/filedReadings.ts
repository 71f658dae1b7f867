import { type Problem, Refused } from '../problem.ts';
import type { RawReadings } from '../readings/rawReadings.ts';
import { readingLimit } from '../readings/readingLimit.ts';
import { type Bench, valueTyped } from '../takenReading.ts';
import { shown } from '../zodProblems.ts';
import type { Meeting } from './meetings.ts';
import { meetingsNamed } from './meetingsNamed.ts';
import type { PrintReading } from './printReading.ts';

export type Texts = Readonly<Record<string, readonly (string | number)[]>>;

/** Readings of a print out of a file, by interface, as typed. Throws `Refused` with every problem: interfaces that are none
 *  or stand for several, lengths that are none or cannot be this size, callipers or a unit that are not the job's, and
 *  nothing read at all. */
export function filedReadings(
  raw: RawReadings,
  meetings: readonly Meeting[],
  readings: readonly PrintReading[],
  bench: Bench,
): Texts {
  const problems: Problem[] = [];
  const told: Record<string, (string | number)[]> = {};
  const mayTake = readingLimit('interface', problems);
  if (raw.unit !== undefined && raw.unit !== bench.unit)
    problems.push({
      code: 'unit_unknown',
      field: 'unit',
      value: shown(raw.unit),
      allowed: `${bench.unit}, as in the job`,
    });
  if (raw.callipers !== undefined)
    problems.push({
      code: 'field_unknown',
      field: 'callipers',
      value: '',
      allowed: 'readings alone: the print is read with the callipers of the job',
    });
  for (const { feature, texts, where } of raw.readings) {
    const id = idNamed(feature, meetings, where, problems);
    const reading = readings.find((each) => each.id === id);
    if (id === undefined || reading === undefined) continue;
    if (raw.once && told[id] !== undefined) {
      problems.push({
        code: 'interface_twice',
        field: where,
        value: shown(feature),
        allowed: 'each interface once, with all its readings in one list',
      });
      continue;
    }
    if (!mayTake(id, { texts, where })) continue;
    const asked = { id, spec: reading.spec, texts: texts.map(String) };
    asked.texts.forEach((text, k) => {
      const typed = valueTyped(asked, text, bench);
      if ('refused' in typed) {
        const [reason = '', allowed = ''] = typed.refused.split('; allowed: ');
        const field = `${where}: ${id}${texts.length > 1 ? `[${k}]` : ''}`;
        problems.push({
          code: 'reading_unclear',
          field,
          value: shown(texts[k]),
          allowed,
          reason: `(${reading.spec.name}) ${reason}`,
        });
      }
    });
    told[id] = [...(told[id] ?? []), ...texts];
  }
  if (problems.length === 0 && Object.values(told).every(({ length }) => length === 0))
    problems.push({
      code: 'no_readings',
      field: '',
      value: 'no reading at all',
      allowed: `readings of ${readings.map(({ id }) => id).join(', ')}`,
    });
  if (problems.length > 0) throw new Refused(problems);
  return told;
}

function idNamed(
  name: string,
  meetings: readonly Meeting[],
  where: string,
  problems: Problem[],
): string | undefined {
  try {
    const ids = meetingsNamed(name, meetings, where);
    if (ids.length === 1) return ids[0];
    problems.push({
      code: 'interface_unknown',
      field: where,
      value: name,
      allowed: `one of ${ids.join(', ')}`,
      reason: 'stands for several',
    });
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    problems.push(...error.problems);
  }
  return undefined;
}
