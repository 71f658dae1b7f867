// What making a part again takes after one change, warm over cold: `npx tsx tests/bench/remake.ts [FAMILY ...]`, and part of
// `npm run bench`. Processor time of this process, so that others on the machine count little.
import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import { readJob } from '../../src/job/readJob.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import type { PlainJob } from '../job/demo.ts';
import { median } from './ratio.ts';

/** Changes the k-th time, each time to something else. */
type Change = (job: PlainJob, k: number) => void;

/** One reading to one hundredth more each time. */
const reading =
  (id: string, from: number, unit = ''): Change =>
  (job, k) => {
    job.readings[id] = [`${(from + k / 100).toFixed(2)}${unit}`];
  };

/** A reading that changes the part, one that changes only the machine around it or what loads it, and an interface. */
const told: Readonly<Record<string, { shape: Change; around: Change; fit: string }>> = {
  'stabiliser-clip': { shape: reading('socketWidth', 4.0), around: reading('axialRoom', 3.4), fit: 'bar' },
  'case-foot': { shape: reading('height', 9.0), around: reading('weight', 5.2, ' kg'), fit: 'hole' },
  'socket-cover': { shape: reading('openingWidth', 38), around: reading('nearGap', 4), fit: '' },
  spacer: { shape: reading('screw', 2.9), around: reading('joint', 6), fit: '' },
};

const columns = {
  shape: 'a reading of the part',
  around: 'a reading of the machine around',
  doubt: 'only the doubt',
  fit: 'the window of a fit',
  words: 'the title',
  printer: 'what the printer adds',
  back: 'back to what it was',
} as const;

function changesOf(family: string): Readonly<Record<keyof typeof columns, Change>> {
  const { shape, around, fit } = told[family]!;
  return {
    ...{ shape, around },
    doubt: (job, k) => {
      job.callipers = { ...job.callipers, resolution: ['0.01', '0.02', '0.03', '0.04', '0.05'][k % 5]! };
    },
    fit: (job, k) => {
      const { family: of, values } = readJob(JSON.stringify(job), families);
      const ids = of.interfaces(values, {}).map(({ id }) => id);
      job.fits = { [ids.find((id) => id.startsWith(fit)) ?? ids[0]!]: [k / 200, 0.2 + k / 200] };
    },
    words: (job, k) => {
      job.title = `Number ${k}`;
    },
    printer: (job, k) => {
      job.printer = { ...job.printer, outerGrowth: { ...job.printer.outerGrowth, value: 0.05 + k / 1000 } };
    },
    back: (job, k) => {
      if (k % 2 === 1) shape(job, 1);
    },
  };
}

const cpu = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

function timed(act: () => void): number {
  const start = cpu();
  act();
  return cpu() - start;
}

/** Making again after one change, from what is remembered over afresh, a family a line; and part and drawing from one making
 *  over doing each by itself. `rounds` changes are made one after another. */
export function remakeTable(kernel: ManifoldToplevel, only: readonly string[] = [], rounds = 3): string {
  const of = families.filter(({ id }) => id in told && (only.length === 0 || only.includes(id)));
  const lines = of.map(({ id }) => {
    const text = readFileSync(`parts/${id}/demo.job.json`, 'utf8');
    const start = (): PlainJob => ({ sizes: {}, fits: {}, ...JSON.parse(text) }) as PlainJob;
    make(kernel, readJob(text, families));
    const cells = Object.values(changesOf(id)).map((change) => {
      const known = new Remembered();
      make(kernel, readJob(JSON.stringify(start()), families), known);
      const ratios = Array.from({ length: rounds }, (_, k) => {
        const job = start();
        change(job, k + 1);
        const changed = JSON.stringify(job);
        const cold = timed(() => void make(kernel, readJob(changed, families)));
        const warm = timed(() => void make(kernel, readJob(changed, families), known));
        return warm / cold;
      });
      known.forget();
      return median(ratios).toFixed(2);
    });
    return `| ${id} | ${[...cells, onePass(kernel, text, rounds)].join(' | ')} |`;
  });
  return [
    `| warm / cold after a change of | ${Object.values(columns).join(' | ')} | part and drawing from one making / from two |`,
    `|${'---|'.repeat(Object.keys(columns).length + 2)}`,
    ...lines,
  ].join('\n');
}

/** The part and all that is drawn of it among the machine, as the page asks for with every keystroke. */
function onePass(kernel: ManifoldToplevel, text: string, rounds: number): string {
  const prepared = readJob(text, families);
  const both = (known?: Remembered) => (): void => {
    make(kernel, prepared, known);
    sceneOf(kernel, prepared, known);
  };
  both()();
  const ratios = Array.from({ length: rounds }, () => {
    const known = new Remembered();
    const ratio = timed(both(known)) / timed(both());
    known.forget();
    return ratio;
  });
  return median(ratios).toFixed(2);
}

if (import.meta.url === `file://${process.argv[1]}`)
  console.log(remakeTable(await loadKernel(), process.argv.slice(2)));
