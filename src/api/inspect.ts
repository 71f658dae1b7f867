import { currentTrial, type WhichPrint } from '../job/inspection/currentTrial.ts';
import type { InspectionVerdict } from '../job/inspection/inspection.ts';
import { meetingsOf } from '../job/inspection/meetings.ts';
import { meetingsNamed } from '../job/inspection/meetingsNamed.ts';
import { type PrintFacts, printFacts } from '../job/inspection/printFacts.ts';
import { withReadings } from '../job/inspection/recordReadings.ts';
import type { Prepared } from '../job/prepare.ts';
import { type Problem, Refused } from '../job/problem.ts';
import type { JobFile } from '../job/schema.ts';
import { type FileTrial, withRecord } from '../job/trial/withRecord.ts';
import { shown } from '../job/zodProblems.ts';
import { dayOf } from './day.ts';
import { prepared } from './inner.ts';
import type { OpenJob } from './openedJob.ts';
import { openJob } from './openJob.ts';

/** Which print is meant: the last one until it was felt, unless told. */
export interface PrintOptions {
  /** Another print than the last. */
  readonly again?: boolean;
  /** The last one, though it was felt or the job has changed since. */
  readonly last?: boolean;
  /** When it is first spoken of, YYYY-MM-DD; today unless told. */
  readonly date?: string;
}

/** A size of a print: what to read of it, and what the readings say. Lengths in mm. */
export interface InspectedSize {
  readonly id: string;
  readonly name: string;
  /** How many readings are asked for, and how. */
  readonly times: number;
  readonly tip: string;
  /** Readings there are, as typed. */
  readonly texts: readonly string[];
  /** What the callipers should show, and between which readings it fits; null where there is no such end. */
  readonly expected: number;
  readonly limits: readonly [number | null, number | null];
  /** Null while it is not read. */
  readonly judged: {
    readonly verdict: 'pass' | 'close' | 'rework' | 'reprint';
    /** Of print and machine as read, with its standard uncertainty. */
    readonly clearance: { readonly value: number; readonly u: number };
    /** That the clearance lies in its window, 0 to 1. */
    readonly chance: number;
    /** Empty where nothing is to be done; no full stop, nor in `why`. */
    readonly todo: string;
    readonly why: string;
  } | null;
}

/** A print on the bench: what to read of it, and what the readings say. */
export interface InspectedPrint {
  /** Which print of the job, from 1. */
  readonly number: number;
  /** The gravest of its sizes; null while none is read. */
  readonly verdict: 'pass' | 'close' | 'rework' | 'reprint' | null;
  readonly sizes: readonly InspectedSize[];
  /** What explains several sizes at once; null where nothing does. */
  readonly drift: string | null;
  readonly cautions: readonly string[];
}

/** Takes the readings of a print, as typed, by interface, and says of each whether it will fit, can be filed until it does, or
 *  is to be printed again, and why. The job given back has the readings on record; without readings nothing is changed,
 *  and the print says what to read. Throws `Refused` as `check` does, for interfaces there are not, and for readings that
 *  are none. */
export async function inspect(
  job: OpenJob,
  readings: Readonly<Record<string, readonly (string | number)[]>> = {},
  { date, ...which }: PrintOptions = {},
): Promise<{ readonly job: JobFile; readonly print: InspectedPrint }> {
  const day = dayOf(date);
  const understood = prepared(job);
  const { record, index } = currentTrial(understood, day, which satisfies WhichPrint);
  const meetings = meetingsOf(understood);
  const texts = Object.fromEntries(
    Object.entries(readings).map(([name, typed]) => [oneOf(name, meetings), typed] as const),
  );
  if (Object.keys(texts).length === 0)
    return { job: job.file, print: printOf(printFacts(understood, day, which)) };
  const file = withRecord(job.file, record, index, (there) => withReadings(there, texts) as FileTrial);
  const facts = printFacts(await understoodAgain(file, job), day, { last: true });
  const unclear = facts.readings
    .filter(({ id }) => Object.hasOwn(texts, id))
    .flatMap(({ id, values }) =>
      values.flatMap((value, k) =>
        'refused' in value ? [unclearAt(`readings.${id}[${k}]`, texts[id]![k], value.refused)] : [],
      ),
    );
  if (unclear.length > 0) throw new Refused(unclear);
  return { job: file, print: printOf(facts) };
}

/** The job with the readings in it, read again as a whole: what is written down must be readable. */
async function understoodAgain(file: JobFile, { beside }: OpenJob): Promise<Prepared> {
  try {
    return prepared(await openJob(file, beside));
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    // Named as they were given, not by where they would stand in the job.
    throw new Refused(
      error.problems.map((one) => ({ ...one, field: one.field.replace(/^trials\[\d+\]\.inspected\./, '') })),
    );
  }
}

/** The one interface that a name means. */
function oneOf(name: string, meetings: ReturnType<typeof meetingsOf>): string {
  const field = `readings.${name}`;
  const [id, ...others] = meetingsNamed(name, meetings, field);
  if (others.length === 0) return id!;
  throw new Refused([
    {
      ...{ code: 'interface_unknown', field, value: shown(name), reason: 'stands for several' },
      allowed: `one of ${[id, ...others].join(', ')}`,
    },
  ]);
}

function unclearAt(field: string, value: unknown, refused: string): Problem {
  const [reason = '', allowed = ''] = refused.split('; allowed: ');
  return { code: 'reading_unclear', field, value: shown(value), allowed, reason };
}

function printOf({ index, verdict, readings, sizes, drift, cautions }: PrintFacts): InspectedPrint {
  return {
    ...{ number: index + 1, verdict: verdict satisfies InspectionVerdict | null, drift, cautions },
    sizes: readings.map(({ id, name, times, tip, texts, expected, limits }) => {
      const size = sizes.find((one) => one.id === id);
      return {
        ...{ id, name, times, tip, texts, expected, limits },
        judged: size
          ? {
              verdict: size.verdict,
              clearance: { value: size.clearance.value, u: size.clearance.u },
              ...{ chance: size.clearance.inside, todo: size.todo, why: size.why },
            }
          : null,
      };
    }),
  };
}
