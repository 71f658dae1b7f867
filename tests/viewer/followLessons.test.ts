import { beforeEach, expect, test } from 'vitest';
import { profileHash } from '../../src/job/profileHash.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { JobKeeper } from '../../viewer/bench/jobKeeper.ts';
import { memoryStore } from '../../viewer/bench/memoryStore.ts';
import { Pen } from '../../viewer/bench/pen.ts';
import { Drawer } from '../../viewer/drawer/drawer.ts';
import { followLessons } from '../../viewer/drawer/followLessons.ts';
import type { SpineClient } from '../../viewer/spine/spineClient.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { fakeLine, fakeLocks } from './fakeTabs.ts';

const fresh: PrinterProfile = { ...defaultPrinter, name: 'Bench printer' };
const taught: PrinterProfile = { ...fresh, material: 'ABS' };
const spine = { turn: { value: 0 }, work: () => new Promise(() => {}) } as unknown as SpineClient;

const job = { ...exampleJob, printer: fresh } as JobFile;
/** The job with a print on record that taught its printer, as the sheet Try leaves it. */
const told = (): JobFile =>
  ({
    ...job,
    printer: taught,
    trials: [{ made: '2026-11-21', learnt: { before: fresh, after: profileHash(taught) } }],
  }) as unknown as JobFile;

let drawer: Drawer;
beforeEach(async () => {
  const tabs = fakeLine()();
  const bench = new Bench(new JobHistory(freshHistory(job)), spine);
  const store = memoryStore();
  const keeper = new JobKeeper(bench, store, tabs, new Pen(tabs, fakeLocks()));
  await keeper.keep({ id: 'example', revision: 0, models: {} });
  drawer = new Drawer(bench, keeper, store, tabs, job);
  await drawer.keepPrinter(fresh, 0);
});

const materials = () => drawer.printers.peek().map(({ profile }) => profile.material);
const changed = async (to: string | null) => {
  for (let k = 0; k < 50 && materials()[0] !== to; k++) await new Promise((later) => setTimeout(later));
  return materials();
};

test('a printer in the drawer learns with the job, and forgets when that is undone, whatever sheet is open', async () => {
  followLessons(drawer);
  drawer.bench.change('print 1 put on record', told);
  expect(await changed('ABS')).toEqual(['ABS']);
  drawer.bench.history.undo();
  expect(await changed(fresh.material)).toEqual([fresh.material]);
  drawer.bench.history.redo();
  expect(await changed('ABS')).toEqual(['ABS']);
});

test('a printer that was changed by hand, or goes with another job, teaches nobody', async () => {
  followLessons(drawer);
  drawer.bench.change('printer', (now) => ({ ...now, printer: taught }) as JobFile);
  drawer.bench.lay(freshHistory(told()), 'measure');
  await new Promise((later) => setTimeout(later, 20));
  expect(materials()).toEqual([fresh.material]);
});
