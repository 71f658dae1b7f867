// Sound files of every kind that Fettle takes, made by the project itself from its demo jobs: nothing here comes from anywhere else.
import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import { bundle } from '../../src/job/bundle.ts';
import { couponOf } from '../../src/job/coupon/couponOf.ts';
import { soundCalibration } from '../../src/job/coupon/soundCalibration.ts';
import { toldCallipers } from '../../src/job/coupon/toldCallipers.ts';
import { understandReadings } from '../../src/job/coupon/understandReadings.ts';
import { make } from '../../src/job/make.ts';
import { prepare } from '../../src/job/prepare.ts';
import { csvReadings } from '../../src/job/readings/csvReadings.ts';
import { parseJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { takeAway } from '../../src/job/takeAway.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { hostileBundle } from '../job/hostileBundle.ts';
import { take } from '../simulation/callipers.ts';
import { randomness } from '../simulation/randomness.ts';
import { drawPrinter, print } from '../simulation/truePrinter.ts';

const kernel = await loadKernel();

/** What is made once, when it is first asked for. */
function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** The demo job of every family, as its file has it. */
export const demoJobs = once((): readonly JobFile[] =>
  families.map(
    ({ id }) =>
      JSON.parse(
        readFileSync(new URL(`../../parts/${id}/demo.job.json`, import.meta.url), 'utf8'),
      ) as JobFile,
  ),
);

const profileOf = ({ printer }: JobFile): PrinterProfile[] =>
  typeof printer === 'object' ? [printer as PrinterProfile] : [];

/** Readings of a coupon as a table, off a printer that exists only here. */
export function couponTable(printer: PrinterProfile, seed: number, mark = ','): string {
  const random = randomness(seed);
  const true_ = drawPrinter(random);
  const callipers = { error: random.uniform(-0.02, 0.02), landWidth: 0.3 };
  const rows = couponOf(printer).features.map(({ id, nominal, measurand, reading, times }) => {
    const size = print(true_, nominal, measurand, random);
    const texts = take(times, size, reading.round === true, callipers, random).map((mm) => mm.toFixed(2));
    return [id, ...texts.map((text) => (mark === ';' ? text.replace('.', ',') : text))].join(mark);
  });
  return [`feature${mark}reading`, ...rows].join('\n');
}

/** A profile as its coupon left it. */
export function calibratedPrinter(printer: PrinterProfile, seed: number): PrinterProfile {
  const { features } = couponOf(printer);
  const { callipers, unit } = toldCallipers({}, {});
  const raw = csvReadings(couponTable(printer, seed), { what: 'feature', example: 'bore.3' });
  const readings = understandReadings(raw, features, callipers, unit);
  return soundCalibration(printer, features, { readings, callipers, date: '2026-11-20' }).profile;
}

/** Printers that somebody has: those of the demo jobs, and some whose coupon was measured. */
export const knownPrinters = once((): readonly PrinterProfile[] => [
  ...demoJobs().flatMap(profileOf),
  ...[1, 2].map((seed) => ({ ...calibratedPrinter(defaultPrinter, seed), name: `bench ${seed}` })),
]);

const madeOf = (file: JobFile) => {
  const { job, family } = parseJob(file, families);
  const prepared = prepare(job, family);
  return { kernel, prepared, result: make(kernel, prepared) };
};

/** The demo jobs of the first family and the last: what is common to all files of a kind shows in two. */
const two = (): readonly JobFile[] => [demoJobs()[0]!, demoJobs().at(-1)!];

/** Models of demo parts, in all the forms there are. */
export const models = once(
  (): Readonly<Record<string, Uint8Array>> =>
    Object.fromEntries(
      two().flatMap((file) => {
        const made = madeOf({ ...file, quantity: 1 });
        return [
          ...takeAway(made, file.family, { kinds: ['stl', '3mf'] }),
          ...takeAway(made, `${file.family}-text`, { kinds: ['stl'], ascii: true }),
        ].map(({ name, bytes }) => [name, bytes] as const);
      }),
    ),
);

/** A bundle as it is passed on, and a small one with no more in it than there must be. */
export const bundles = once((): readonly Uint8Array[] => {
  const file = demoJobs().at(-1)!;
  return [bundle({ ...madeOf(file), base: file.family, file }).bytes, hostileBundle()];
});
