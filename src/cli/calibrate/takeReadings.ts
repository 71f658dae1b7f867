import { existsSync } from 'node:fs';
import { couponReading } from '../../job/coupon/couponReading.ts';
import { type CalliperOptions, toldCallipers } from '../../job/coupon/toldCallipers.ts';
import { understandReadings } from '../../job/coupon/understandReadings.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { askLines } from '../measure/askLines.ts';
import type { Texts } from '../measure/jobStore.ts';
import { measureSession } from '../measure/session.ts';
import { readingsFile } from '../readings/readingsFile.ts';
import { blaming } from '../refusedFile.ts';
import type { Looks } from '../terminal.ts';
import { benchReadings, benchReadingsPath, keepOldReadings } from './benchReadings.ts';

interface Bench {
  readonly options: CalliperOptions;
  /** Begin a new set, the old one kept aside. */
  readonly again: boolean;
  /** Where the questions go. */
  readonly output: NodeJS.WriteStream;
  readonly looks: Looks;
  readonly say: (line: string) => void;
}

/** What came of standing at the bench. */
export interface Taken {
  /** File that holds the readings. */
  readonly path: string;
  /** Features without a reading yet. */
  readonly missing: readonly CouponFeature[];
}

/** Asks for the readings of a coupon one by one and keeps each at once in a file beside the profile, from which it also
 *  goes on where it stopped. Throws `RefusedFile`. */
export async function takeReadings(
  printer: string,
  features: readonly CouponFeature[],
  { options, again, output, looks, say }: Bench,
): Promise<Taken> {
  const path = benchReadingsPath(printer);
  if (again) {
    const aside = await keepOldReadings(path);
    if (aside !== undefined) say(`the readings there were are kept in ${aside}`);
  }
  const there = async (): Promise<Readonly<Record<string, Texts>>> => {
    if (!existsSync(path)) return {};
    const raw = await readingsFile(path);
    const { callipers, unit } = blaming(path, () => toldCallipers(options, raw));
    if (raw.readings.length === 0) return {};
    const known = blaming(path, () => understandReadings(raw, features, callipers, unit, 'none'));
    return Object.fromEntries(Object.entries(known).map(([id, all]) => [id, all.map(textOf)]));
  };
  const old = existsSync(path) ? await readingsFile(path) : {};
  const { callipers, unit, told } = blaming(path, () => toldCallipers(options, old));
  const before = await there();

  const asked = features.map((feature) => couponReading(feature, (before[feature.id] ?? []).map(String)));
  const asker = askLines(process.stdin, output);
  try {
    const taken = await measureSession(asked, {
      again: false,
      bench: { unit, callipers },
      looks,
      asker,
      store: benchReadings(path, told, unit, there),
      say,
      ring: () => void (output.isTTY && output.write('\u0007')),
    });
    const unread = new Set(taken.filter(({ texts }) => texts.length === 0).map(({ id }) => id));
    return { path, missing: features.filter(({ id }) => unread.has(id)) };
  } finally {
    asker.close();
  }
}

const textOf = (reading: number | { readonly text: string | number }): string | number =>
  typeof reading === 'number' ? reading : reading.text;
