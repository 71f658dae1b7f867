import type { Family } from '../../../src/family/family.ts';
import { currentTrial } from '../../../src/job/inspection/currentTrial.ts';
import { filedReadings } from '../../../src/job/inspection/filedReadings.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { printReadings } from '../../../src/job/inspection/printReading.ts';
import { printCallipers } from '../../../src/job/inspection/printSize.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { readingsKind } from '../../../src/job/readings/readingsKind.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { PrintAsked } from './inspect.ts';

/** Readings as typed, by interface. */
export interface FiledTexts {
  readonly texts: Readonly<Record<string, readonly (string | number)[]>>;
}

/** Readings of a print from the text of a file, CSV or JSON, as `fettle inspect --readings` takes them. Throws `Refused`. */
export async function printReadingsIn(
  families: readonly Family[],
  file: JobFile,
  asked: PrintAsked,
  name: string,
  text: string,
): Promise<FiledTexts> {
  // Tables are read by a library that few ever need.
  const { parseReadings } = await import('../../../src/job/readings/parseReadings.ts');
  const { job, family } = parseJob(file, families);
  const prepared = prepare(job, family);
  const { record } = currentTrial(prepared, asked.date, asked);
  const meetings = meetingsOf(prepared);
  const things = { what: 'interface', example: meetings[0]?.id ?? 'post' };
  const raw = parseReadings(text, readingsKind(name, text), things);
  const bench = { unit: job.unit, callipers: printCallipers(prepared, record) };
  return { texts: filedReadings(raw, meetings, printReadings(meetings, record), bench) };
}
