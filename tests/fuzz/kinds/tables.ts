import fc from 'fast-check';
import { families } from '../../../parts/index.ts';
import { calibrateAction } from '../../../src/cli/calibrate/calibrateAction.ts';
import { inspectAction } from '../../../src/cli/inspect/inspectAction.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { readJob } from '../../../src/job/readJob.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { mustBeSoundFiles } from '../checks/soundFiles.ts';
import { commandRun, type Files } from '../commandRun.ts';
import { couponTable, demoJobs, knownPrinters } from '../corpus.ts';
import { edited, edits } from '../damage/bytes.ts';
import { changed, changes } from '../damage/json.ts';
import { pieceChanges, rearranged } from '../damage/pieces.ts';
import { way, written } from '../damage/text.ts';
import { type Kind, kind, type Outcome } from '../kind.ts';

const CELLS = [
  ...[
    '',
    '0',
    '-1',
    '4.79',
    '4,79',
    '1e9',
    'NaN',
    '=1+1',
    '"',
    '""',
    '"4.7',
    '4.7"',
    "'",
    '\t',
    ';',
    ',',
    '\n',
    '\r',
    '\0',
    '#',
    '# x',
    '\ufeff',
  ],
  ...[
    'bore.3',
    'BORE.3',
    '#3',
    '3',
    '999',
    'feature',
    'number',
    'reading',
    'mm',
    'x'.repeat(3000),
    ','.repeat(3000),
    '١',
    '4.79 mm',
    '0.19"',
    '1 1/8',
  ],
];

/** A table that something happened to: cells, rows, marks, bytes. */
const damagedTable = (tables: readonly string[]): fc.Arbitrary<Uint8Array> =>
  fc
    .tuple(
      fc.constantFrom(...tables),
      pieceChanges(CELLS),
      fc.constantFrom(/[^,;\t\n]+/g, /[^\n]+/g, /[,;\t\n]/g),
      way,
      fc.oneof({ weight: 4, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: edits }),
    )
    .map(([table, list, piece, how, more]) => edited(written(rearranged(table, piece, list), how), more));

/** The same readings as JSON. */
const asJson = (table: string): object => ({
  callipers: { name: 'long pair', resolution: '0.01' },
  unit: 'mm',
  readings: Object.fromEntries(
    table
      .split('\n')
      .slice(1)
      .map((row) => {
        const [id, ...texts] = row.split(',');
        return [id!, texts];
      }),
  ),
});
const damagedJson = (tables: readonly string[]): fc.Arbitrary<Uint8Array> =>
  fc
    .tuple(fc.constantFrom(...tables), changes, way)
    .map(([table, list, how]) => written(changed(asJson(table), list), how));

const couponTables = [1, 2].flatMap((seed) => [
  couponTable(defaultPrinter, seed),
  couponTable(defaultPrinter, seed, ';'),
  couponTable(defaultPrinter, seed, '\t'),
]);
const printer = JSON.stringify(defaultPrinter);

async function ended(
  given: Files,
  mayChange: string,
  work: (inFolder: (name: string) => string) => Promise<unknown>,
): Promise<Outcome> {
  const run = await commandRun(given, work);
  if (run.refused.length > 0) return { refused: run.refused };
  mustBeSoundFiles(run, { given: Object.keys(given).filter((name) => name !== mayChange) });
  return { made: 'taken' };
}

const calibrated = (name: string, file: string, few: number, bytes: fc.Arbitrary<Uint8Array>): Kind =>
  kind<Uint8Array>({
    name,
    few,
    inputs: bytes,
    attempt: (readings) =>
      ended({ 'any.printer.json': printer, [file]: readings }, 'any.printer.json', (inFolder) =>
        calibrateAction(inFolder('any.printer.json'), inFolder(file), { date: '2026-11-20' }),
      ),
    files: (readings) => ({ 'any.printer.json': printer, [file]: readings }),
  });

const job = JSON.stringify(demoJobs()[0]);
const printTable = [
  'interface,reading',
  ...meetingsOf(readJob(job, families)).map(
    ({ id, one }) => `${id},${one.predicted.toFixed(2)},${(one.predicted + 0.01).toFixed(2)}`,
  ),
].join('\n');
const inspected: Kind = kind<Uint8Array>({
  name: 'damaged table of a print',
  few: 12,
  inputs: damagedTable([printTable, printTable.replaceAll('.', ',').replaceAll(/,(?=[a-z])/g, '.')]),
  attempt: (readings) =>
    ended({ 'any.job.json': job, 'any.csv': readings }, 'any.job.json', (inFolder) =>
      inspectAction(
        inFolder('any.job.json'),
        { readings: inFolder('any.csv'), date: '2026-11-22' },
        families,
      ),
    ),
  files: (readings) => ({ 'any.job.json': job, 'any.csv': readings }),
});

const couponPrinters = kind<{ readonly profile: object; readonly table: string }>({
  name: 'readings of any printer',
  few: 3,
  inputs: fc.record({
    profile: fc.constantFrom(defaultPrinter, ...knownPrinters()),
    table: fc.integer({ min: 1, max: 1e6 }).map((seed) => couponTable(defaultPrinter, seed)),
  }),
  attempt: ({ profile, table }) =>
    ended({ 'any.printer.json': JSON.stringify(profile), 'any.csv': table }, 'any.printer.json', (inFolder) =>
      calibrateAction(inFolder('any.printer.json'), inFolder('any.csv'), { date: '2026-11-20' }),
    ),
  files: ({ profile, table }) => ({ 'any.printer.json': JSON.stringify(profile), 'any.csv': table }),
});

export const damagedTables: readonly Kind[] = [
  calibrated('damaged table of a coupon', 'any.csv', 20, damagedTable(couponTables)),
  calibrated(
    'damaged JSON of a coupon',
    'any.json',
    20,
    damagedJson(
      couponTables.filter((table) => table.includes(',') && !table.includes(';') && !table.includes('\t')),
    ),
  ),
  couponPrinters,
  inspected,
];
