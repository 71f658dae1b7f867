import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { demoJob, fettle } from '../cli/fettle.ts';

/** A command at work in a folder of its own, to be killed. */
export interface Scene {
  readonly name: string;
  readonly lay: (folder: string) => void | Promise<void>;
  readonly args: readonly string[];
  /** How many kills fall on it beside others; those that take long get fewer. */
  readonly share: number;
  /** Lines typed one by one, each after it was asked for, and the file that they go into. */
  readonly typed?: { readonly lines: readonly string[]; readonly into: string };
  /** For a command whose doing counts once: another that looks at the same files, and what the command says when it is done. Others
   *  are simply run again. */
  readonly once?: { readonly look: readonly string[]; readonly said: RegExp };
}

const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
/** The part that takes the least time. */
const spacer = JSON.parse(
  readFileSync(fileURLToPath(new URL('../../parts/spacer/demo.job.json', import.meta.url)), 'utf8'),
);
const put = (folder: string, name: string, content: string | object) =>
  writeFileSync(join(folder, name), typeof content === 'string' ? content : JSON.stringify(content, null, 1));
const jobIn = (folder: string) => put(folder, 'my.job.json', demo);
/** The demo job with its printer in a file of its own. */
const pairIn = (folder: string) => {
  put(folder, 'my.job.json', { ...demo, printer: 'my.printer.json' });
  put(folder, 'my.printer.json', demo.printer);
};
const day = ['--date', '2026-12-03'];

/** What callipers read of a coupon that came out nearly as drawn. */
const couponLines = coupon(defaultPrinter).features.flatMap(({ nominal, times }, k) =>
  Array.from({ length: times }, (_, n) => (nominal + 0.01 * ((k + n) % 3)).toFixed(2)),
);
const couponTable = coupon(defaultPrinter)
  .features.map(({ id, nominal }, k) => `${id},${(nominal + 0.01 * (k % 3)).toFixed(2)}`)
  .join('\n');

export const scenes: readonly Scene[] = [
  {
    name: 'make',
    share: 2,
    lay: (folder) => put(folder, 'my.job.json', spacer),
    args: ['make', 'my.job.json', '--3mf', '--report', '--out', 'out'],
  },
  {
    name: 'plate',
    share: 2,
    lay: (folder) => {
      put(folder, 'a.job.json', spacer);
      put(folder, 'b.job.json', spacer);
    },
    args: ['plate', 'a.job.json', 'b.job.json', '--out', 'out'],
  },
  {
    name: 'bundle',
    share: 2,
    lay: (folder) => put(folder, 'my.job.json', spacer),
    args: ['bundle', 'my.job.json', '--out', 'out', '--author', 'A. Bench', '--licence', 'CC0-1.0'],
  },
  {
    name: 'batch',
    share: 2,
    lay: (folder) => {
      for (const name of ['a', 'b', 'c']) put(folder, `${name}.job.json`, { ...spacer, title: name });
    },
    args: ['make', ...['a', 'b', 'c'].map((name) => `${name}.job.json`), '--hands', '2', '--out', 'out'],
  },
  {
    name: 'measure',
    share: 3,
    lay: (folder) => put(folder, 'my.job.json', { ...demo, readings: {} }),
    args: ['measure', 'my.job.json'],
    typed: {
      lines: [
        '1.60',
        '1.61',
        '1,60',
        '0.063in',
        '1.61',
        '4.02',
        '4.03',
        '4.01',
        '4.02',
        '4.02',
        '4.42',
        '4.41',
      ],
      into: 'my.job.json',
    },
  },
  {
    name: 'inspect',
    share: 3,
    lay: jobIn,
    args: ['inspect', 'my.job.json', ...day],
    typed: { lines: ['3.95', '3.94', '3.95', '4.22', '4.21', '4,22', '1.80', '1.81'], into: 'my.job.json' },
  },
  {
    name: 'coupon read',
    share: 3,
    lay: (folder) => put(folder, 'my.printer.json', { ...defaultPrinter, name: 'Bench Ox' }),
    args: ['calibrate', 'my.printer.json'],
    typed: { lines: couponLines.slice(0, 10), into: 'my.printer-readings.json' },
  },
  {
    name: 'calibrate',
    share: 3,
    lay: (folder) => {
      pairIn(folder);
      put(folder, 'readings.csv', couponTable);
    },
    args: ['calibrate', 'my.printer.json', 'readings.csv', ...day],
    once: { look: ['check', 'my.job.json'], said: /next: keep/ },
  },
  {
    name: 'trial',
    share: 3,
    lay: pairIn,
    args: ['trial', 'my.job.json', '--felt', 'socket=tight,bar=right', ...day],
    once: { look: ['trial', 'my.job.json', '--history'], said: /wrote my\.printer\.json/ },
  },
  {
    name: 'ladder --felt',
    share: 3,
    lay: async (folder) => {
      pairIn(folder);
      await fettle(['ladder', 'my.job.json', 'socket', '--out', 'out'], { cwd: folder });
    },
    args: ['ladder', 'my.job.json', 'socket', '--felt', '2'],
    once: { look: ['check', 'my.job.json'], said: /wrote .*my\.printer\.json/ },
  },
  {
    name: 'ladder',
    share: 1,
    lay: jobIn,
    args: ['ladder', 'my.job.json', 'socket', '--out', 'out'],
  },
  {
    name: 'printer new',
    share: 2,
    lay: () => {},
    args: ['printer', 'new', 'my.printer.json', '--usual'],
    once: { look: ['calibrate', 'my.printer.json', 'none.csv'], said: /wrote my/ },
  },
];
