import type { Family } from '../../family/family.ts';
import type { CurrentTrial } from '../../job/inspection/currentTrial.ts';
import { filedReadings, type Texts } from '../../job/inspection/filedReadings.ts';
import { inspect } from '../../job/inspection/inspection.ts';
import { meetingsNamed } from '../../job/inspection/meetingsNamed.ts';
import { type PrintReading, printReadings } from '../../job/inspection/printReading.ts';
import { printCallipers } from '../../job/inspection/printSize.ts';
import {
  filedAnew,
  type Stage,
  takenIn,
  textsRead,
  withReadings,
} from '../../job/inspection/recordReadings.ts';
import type { Bench, Reading } from '../../job/takenReading.ts';
import type { FileTrial } from '../../job/trial/withRecord.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { day } from '../../output/words/index.ts';
import { exitCode } from '../exitCode.ts';
import { type OpenedPrint, openPrint, type ToldPrint } from '../openPrint.ts';
import { readingsFile } from '../readings/readingsFile.ts';
import { blaming } from '../refusedFile.ts';
import { type Talk, talkBeside } from '../talk.ts';
import { wrapped } from '../terminal.ts';
import { inspectObject } from './inspectObject.ts';
import { inspectText } from './inspectText.ts';
import { changeRecord, trialReadings } from './trialReadings.ts';

export interface InspectOptions extends ToldPrint {
  readonly readings?: string;
  readonly only?: string;
  readonly reworked?: readonly string[];
  readonly json?: true;
}

/** A print on the bench: the record it goes into and how each of its sizes is read. */
interface Print extends OpenedPrint {
  readonly path: string;
  readonly readings: readonly PrintReading[];
  readonly bench: Bench;
  /** Interfaces filed or drilled since they were read; what is read of them now is kept apart. */
  readonly reworked: ReadonlySet<string>;
}

/** `fettle inspect`: readings of a print, from the bench or a file, into the record of that print, and the verdict on it.
 *  Throws `RefusedFile`. */
export async function inspectAction(
  path: string,
  options: InspectOptions,
  families: readonly Family[],
): Promise<void> {
  const { prepared, current, meetings } = await openPrint(path, options, families);
  const named = (names: readonly string[], field: string) =>
    blaming(path, () => names.flatMap((name) => meetingsNamed(name, meetings, field)));
  const filed = named(options.reworked ?? [], '--reworked');
  const only = named(options.only === undefined ? [] : [options.only], '--only');
  const print: Print = {
    ...{ path, prepared, meetings, current },
    readings: printReadings(meetings, current.record),
    bench: { unit: prepared.job.unit, callipers: printCallipers(prepared, current.record) },
    reworked: new Set([...(current.record.reworked ?? []), ...filed]),
  };

  const talk = talkBeside(options.json);
  let record: TrialRecord;
  if (options.readings !== undefined) {
    const raw = await readingsFile(options.readings, {
      what: 'interface',
      example: meetings[0]?.id ?? 'post',
    });
    const told = blaming(options.readings, () => filedReadings(raw, meetings, print.readings, print.bench));
    record = await takeFile(print, filed, told);
  } else {
    const begun = filed.length > 0 ? await beginAnew(print, filed) : current.record;
    const asked = filed.length > 0 ? filed : only;
    const now = { ...print, current: { ...current, record: begun } };
    record = await takeAtBench(now, asked, only.length > 0, talk);
  }

  const inspection = blaming(path, () => inspect(prepared, record));
  if (options.json) {
    const told = inspectObject(inspection, prepared, record, current.index + 1, path);
    process.stdout.write(`${JSON.stringify(told, null, 2)}\n`);
  } else {
    const { job, family, material, printer } = prepared;
    const about = {
      ...{ title: job.title ?? family.title, made: `${material.name}, ${printer.name}` },
      ...{ date: record.date, job: path },
    };
    for (const line of inspectText(inspection, about, talk.looks)) talk.say(line);
  }
  const misses = inspection.verdict === 'rework' || inspection.verdict === 'reprint';
  process.exitCode = misses ? exitCode.failed : exitCode.done;
}

const stageIn =
  ({ reworked }: Pick<Print, 'reworked'>) =>
  (id: string): Stage =>
    reworked.has(id) ? 'after' : 'readings';

/** Notes that interfaces have been filed or drilled. */
async function beginAnew({ path, current }: Print, filed: readonly string[]): Promise<TrialRecord> {
  const { record, index } = current;
  await changeRecord(path, record, index, (there) => filedAnew(there, filed));
  return filedAnew(record, filed);
}

/** Takes a file of readings into the record, in one go. */
async function takeFile(print: Print, filed: readonly string[], told: Texts): Promise<TrialRecord> {
  const { path, current } = print;
  const stage = stageIn(print);
  const taken = <R extends TrialRecord | FileTrial>(record: R): R => {
    const texts = Object.entries(told).map(([id, all]) => {
      const there = filed.includes(id) ? [] : textsRead(record, id, stage(id));
      return [id, takenIn(there, all)] as const;
    });
    return withReadings(record, Object.fromEntries(texts), stage);
  };
  // Into the record as it is in the file now: readings taken meanwhile stay.
  await changeRecord(path, current.record, current.index, taken);
  return taken(current.record);
}

/** Asks for the readings one after another, each saved at once. `asked`: these interfaces alone; all where there is none. */
async function takeAtBench(
  print: Print,
  asked: readonly string[],
  again: boolean,
  { output, looks, say }: Talk,
): Promise<TrialRecord> {
  const { path, current, readings, bench } = print;
  const { record, index } = current;
  const stage = stageIn(print);
  const wanted = readings
    .filter(({ id }) => asked.length === 0 || asked.includes(id))
    .map(({ id, spec }): Reading => ({ id, spec, texts: textsRead(record, id, stage(id)).map(String) }));
  const open = again || wanted.some(({ texts, spec }) => texts.length < spec.times);
  // Questions are loaded when they are asked.
  if (!open) return record;
  const { askLines } = await import('../measure/askLines.ts');
  const { measureSession } = await import('../measure/session.ts');
  for (const line of introduction(current)) for (const part of wrapped(line, looks.width)) say(part);
  const asker = askLines(process.stdin, output);
  try {
    const taken = await measureSession(wanted, {
      ...{ again, bench, looks, asker, say, nominals: false },
      store: trialReadings(path, record, index, stage),
      ring: () => void (output.isTTY && output.write('\u0007')),
    });
    say('');
    const read = taken.filter(({ texts }, k) => texts.length > 0 || wanted[k]!.texts.length > 0);
    return withReadings(record, Object.fromEntries(read.map(({ id, texts }) => [id, texts])), stage);
  } finally {
    asker.close();
  }
}

/** Which print is meant, before anything is asked. */
function introduction({ record, isNew, changed, index }: CurrentTrial): readonly string[] {
  if (!isNew)
    return [
      `goes on with print ${index + 1}, first spoken of on ${day(record.date)}; for another one: --again`,
    ];
  const fresh = `print ${index + 1} of this job, as it is drawn now`;
  return changed
    ? [
        `the job has changed since print ${index} was read, so this is taken for another: ${fresh}. Is it print ${index} still? --last`,
      ]
    : [fresh];
}
