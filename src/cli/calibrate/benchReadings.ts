import { readFile } from 'node:fs/promises';
import writeFileAtomic from 'write-file-atomic';
import type { JobStore } from '../measure/jobStore.ts';
import { RefusedFile } from '../refusedFile.ts';
import { systemProblem } from '../systemProblem.ts';

type Texts = Readonly<Record<string, readonly (string | number)[]>>;

/** Where the readings of a printer's coupon are kept while they are taken: beside its profile.
 *  @example benchReadingsPath('my.printer.json') // => 'my.printer-readings.json' */
export const benchReadingsPath = (printer: string): string =>
  `${printer.replace(/\.json$/i, '')}-readings.json`;

/** The store of one coupon's readings: a file that `fettle calibrate PRINTER FILE` reads too. It holds what has been
 *  read before; every change is on the disk, whole, before the call comes back. Throws `RefusedFile`. */
export function benchReadings(
  path: string,
  callipers: Readonly<Record<string, unknown>>,
  unit: 'mm' | 'in',
  before: Texts,
): JobStore {
  const now = new Map(Object.entries(before).map(([id, texts]) => [id, [...texts]]));
  const change = async (feature: string, work: (texts: (string | number)[]) => void) => {
    const texts = now.get(feature) ?? [];
    work(texts);
    now.set(feature, texts);
    await writeReadings(path, readingsText(callipers, unit, Object.fromEntries(now)));
  };
  return {
    append: (feature, text) => change(feature, (texts) => texts.push(text)),
    drop: (feature, index) => change(feature, (texts) => texts.splice(index, 1)),
  };
}

/** Keeps an old set of readings under another name, so that a new one may begin; where there is one. */
export async function keepOldReadings(path: string): Promise<string | undefined> {
  const old = await readFile(path, 'utf8').catch(() => undefined);
  if (old === undefined) return undefined;
  const aside = path.replace(/\.json$/, '.before.json');
  await writeReadings(aside, old);
  return aside;
}

async function writeReadings(path: string, text: string): Promise<void> {
  try {
    await writeFileAtomic(path, text);
  } catch (error) {
    throw new RefusedFile(path, [systemProblem(error, '', 'a file that can be written to')]);
  }
}

/** Text of a file of readings: the readings of one feature on one line. */
export const readingsText = (
  callipers: Readonly<Record<string, unknown>>,
  unit: 'mm' | 'in',
  readings: Texts,
): string =>
  `${JSON.stringify({ callipers, unit, readings }, null, 2).replace(
    /\[\n\s*([^[\]{}]*?)\n\s*\]/g,
    (_, inner: string) => `[${inner.replace(/\n\s*/g, ' ')}]`,
  )}\n`;
