import { renameSync } from 'node:fs';
import { realpath } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { holding } from '../disk/holding.ts';
import { identityOf } from '../disk/identity.ts';
import { lastRead } from '../disk/lastRead.ts';
import { type JobStore, type Texts, without } from '../measure/jobStore.ts';
import { writeAfresh } from '../placedFiles.ts';
import { RefusedFile } from '../refusedFile.ts';
import { systemProblem } from '../systemProblem.ts';

type AllTexts = Readonly<Record<string, Texts>>;

/** Where the readings of a printer's coupon are kept while they are taken: beside its profile.
 *  @example benchReadingsPath('my.printer.json') // => 'my.printer-readings.json' */
export const benchReadingsPath = (printer: string): string =>
  `${printer.replace(/\.json$/i, '')}-readings.json`;

/** The store of one coupon's readings: a file that `fettle calibrate PRINTER FILE` reads too. `there` reads what is in it. Every
 *  change is made to the file as it is at that moment, so that what somebody else takes meanwhile stays, and is on the
 *  disk, whole, before the call comes back. Throws `RefusedFile`. */
export function benchReadings(
  path: string,
  callipers: Readonly<Record<string, unknown>>,
  unit: 'mm' | 'in',
  there: () => Promise<AllTexts>,
): JobStore {
  const change = (feature: string, work: (texts: Texts) => Texts) =>
    writeAfresh(path, async () => {
      const now = await there();
      const all = { ...now, [feature]: work(now[feature] ?? []) };
      const bytes = new TextEncoder().encode(readingsText(callipers, unit, all));
      const real = await realpath(path).catch(() => path);
      const about = { path, field: '' };
      return [{ folder: dirname(real), name: basename(real), bytes, about, was: lastRead(path) ?? null }];
    });
  return {
    append: (feature, text) => change(feature, (texts) => [...texts, text]),
    drop: (feature, index, text) =>
      change(feature, (texts) => without(texts, index, text, { path, field: `readings.${feature}` })),
  };
}

/** Keeps an old set of readings under another name that is free, so that a new one may begin; where there is one. */
export async function keepOldReadings(path: string): Promise<string | undefined> {
  if (identityOf(path) === null) return undefined;
  try {
    return await holding([await realpath(dirname(path))], () => {
      for (let k = 1; ; k++) {
        const aside = path.replace(/\.json$/, `.before${k === 1 ? '' : `-${k}`}.json`);
        if (identityOf(aside) !== null) continue;
        renameSync(path, aside);
        return aside;
      }
    });
  } catch (error) {
    if (error instanceof RefusedFile) throw error;
    throw new RefusedFile(path, [systemProblem(error, '', 'a file that can be written to')]);
  }
}

/** Text of a file of readings: the readings of one feature on one line. */
export const readingsText = (
  callipers: Readonly<Record<string, unknown>>,
  unit: 'mm' | 'in',
  readings: AllTexts,
): string =>
  `${JSON.stringify({ callipers, unit, readings }, null, 2).replace(
    /\[\n\s*([^[\]{}]*?)\n\s*\]/g,
    (_, inner: string) => `[${inner.replace(/\n\s*/g, ' ')}]`,
  )}\n`;
