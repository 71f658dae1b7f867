import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, test } from 'vitest';
import { families } from '../../parts/index.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { profileText } from '../../src/printer/profileText.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { JobKeeper } from '../../viewer/bench/jobKeeper.ts';
import type { JobStore } from '../../viewer/bench/jobStore.ts';
import { memoryStore } from '../../viewer/bench/memoryStore.ts';
import { Pen } from '../../viewer/bench/pen.ts';
import { Drawer, KEPT_DAYS, titleOf } from '../../viewer/drawer/drawer.ts';
import { takeFiles } from '../../viewer/drawer/takeFiles.ts';
import type { Spine } from '../../viewer/spine/protocol.ts';
import type { SpineClient } from '../../viewer/spine/spineClient.ts';
import { openFile } from '../../viewer/spine/tasks/openFile.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { fakeLine, fakeLocks } from './fakeTabs.ts';

const demo = readFileSync(new URL('../../parts/case-foot/demo.job.json', import.meta.url), 'utf8');
const profile = { ...defaultPrinter, name: 'Bench printer' };
const file = (name: string, text: string) => new File([text], name);
const NOON = Date.UTC(2026, 10, 21, 12);
const DAY = 24 * 60 * 60 * 1000;

/** A worker that looks at files as the real one, and works no job. */
const worker = {
  openFile: async (bytes: Uint8Array) => openFile(bytes, families),
  newJob: async (family: string): Promise<JobFile> => ({ fettle: 1, family }),
} as unknown as Spine;
const spine = {
  turn: { value: 0 },
  work: () => new Promise(() => {}),
  ask: <T>(_: string, task: (spine: Spine) => Promise<T>) => task(worker),
  look: <T>(task: (spine: Spine) => Promise<T>) => task(worker),
} as unknown as SpineClient;

let store: JobStore;
let drawer: Drawer;
beforeEach(async () => {
  store = memoryStore();
  drawer = await drawerOn(store);
});

async function drawerOn(store: JobStore): Promise<Drawer> {
  const tabs = fakeLine()();
  const bench = new Bench(new JobHistory(freshHistory(exampleJob)), spine);
  const keeper = new JobKeeper(bench, store, tabs, new Pen(tabs, fakeLocks()));
  await keeper.keep({ id: 'example', revision: 0, models: {} });
  return new Drawer(bench, keeper, store, tabs, exampleJob);
}

const titles = () =>
  drawer.lines
    .peek()
    .filter(({ thrown }) => thrown === undefined)
    .map(({ now }) => titleOf(now));
const onBench = () => titleOf(drawer.bench.job.peek());

describe('jobs', () => {
  test('a new one comes on the bench, and what lay there is in the drawer as it was left', async () => {
    drawer.bench.change('title', (job) => ({ ...job, title: 'left' }));
    drawer.bench.sheet.value = 'print';
    await drawer.begin('case-foot');
    expect(onBench()).toBe('case foot');
    expect(titles().sort()).toEqual(['case foot', 'left']);
    expect(drawer.bench.sheet.value).toBe('measure');
    await drawer.open('example');
    expect(onBench()).toBe('left');
    expect(drawer.bench.sheet.value).toBe('print');
    expect(drawer.bench.history.undoes.value).toBe('title');
    drawer.bench.history.undo();
    expect(drawer.bench.job.peek()).toEqual(exampleJob);
  });

  test('the example that nobody touched leaves nothing behind', async () => {
    await drawer.begin('case-foot');
    expect(titles()).toEqual(['case foot']);
  });

  test('thrown away the next one comes on the bench; brought back it lies there again', async () => {
    await drawer.begin('case-foot');
    await drawer.begin('socket-cover');
    const id = drawer.keeper.id.peek();
    await drawer.throwAway(id, NOON);
    expect(onBench()).toBe('case foot');
    expect(titles()).toEqual(['case foot']);
    const bring = drawer.told.peek()?.deeds?.[0];
    expect(bring?.label).toBe('bring it back');
    await drawer.bringBack(id, true);
    expect(onBench()).toBe('socket cover');
    expect(titles().sort()).toEqual(['case foot', 'socket cover']);
  });

  test('after the last one the example comes', async () => {
    await drawer.begin('case-foot');
    await drawer.throwAway(drawer.keeper.id.peek(), NOON);
    expect(drawer.bench.job.peek()).toEqual(exampleJob);
    expect(titles()).toEqual([]);
  });

  test('what was thrown away goes for good after its days, and not before', async () => {
    await drawer.begin('case-foot');
    await drawer.throwAway(drawer.keeper.id.peek(), NOON);
    await drawer.sweep(NOON + KEPT_DAYS * DAY);
    expect(await store.jobs()).toHaveLength(1);
    await drawer.sweep(NOON + KEPT_DAYS * DAY + 1);
    expect(await store.jobs()).toHaveLength(0);
  });

  test('called by another title, on the bench or not; undo takes it back', async () => {
    await drawer.begin('case-foot');
    const foot = drawer.keeper.id.peek();
    await drawer.begin('socket-cover');
    for (const title of ['r', 're', 'rear']) await drawer.rename(foot, title);
    await drawer.rename(drawer.keeper.id.peek(), 'cover');
    await drawer.keeper.flush();
    await drawer.refresh();
    expect(titles().sort()).toEqual(['cover', 'rear']);
    await drawer.open(foot);
    drawer.bench.history.undo();
    expect(drawer.bench.job.peek()).toEqual({ fettle: 1, family: 'case-foot' });
  });

  test('a copy is a job of its own', async () => {
    await drawer.begin('case-foot');
    await drawer.copy(drawer.keeper.id.peek());
    drawer.bench.change('quantity', (job) => ({ ...job, quantity: 9 }));
    await drawer.keeper.flush();
    await drawer.refresh();
    // Saved within the same moment, so in no order.
    expect(new Map(drawer.lines.peek().map(({ now }) => [titleOf(now), now.quantity]))).toEqual(
      new Map([
        ['case foot (copy)', 9],
        ['case foot', undefined],
      ]),
    );
  });

  test('what could not be saved stays on the bench', async () => {
    const { update: _, ...rest } = memoryStore();
    drawer = await drawerOn({
      ...rest,
      update: async () => {
        throw new DOMException('no room', 'QuotaExceededError');
      },
    });
    drawer.bench.change('title', (job) => ({ ...job, title: 'typed' }));
    await drawer.begin('case-foot');
    expect(onBench()).toBe('typed');
    expect(drawer.told.peek()).toMatchObject({ kind: 'refused', deeds: [{ label: 'take it away' }] });
  });
});

describe('files', () => {
  test('a job and the printer it names, given together, are one job; the printer lies in the drawer too', async () => {
    const named = JSON.stringify({ ...JSON.parse(demo), printer: 'mine.printer.json' });
    await takeFiles(
      drawer,
      [file('foot.job.json', named), file('mine.printer.json', profileText(profile))],
      NOON,
    );
    expect(drawer.bench.job.peek().printer).toEqual(profile);
    expect(drawer.printers.peek().map((printer) => printer.profile)).toEqual([profile]);
  });

  test('a printer given after the job that names it goes into that job', async () => {
    await takeFiles(
      drawer,
      [file('foot.job.json', JSON.stringify({ ...JSON.parse(demo), printer: 'mine.printer.json' }))],
      NOON,
    );
    expect(drawer.bench.job.peek().printer).toBe('mine.printer.json');
    await takeFiles(drawer, [file('other-name.json', profileText(profile))], NOON);
    expect(drawer.bench.job.peek().printer).toEqual(profile);
    drawer.bench.history.undo();
    expect(drawer.bench.job.peek().printer).toBe('mine.printer.json');
  });

  test('the same printer twice is one, another of the same name a second', async () => {
    const other = { ...profile, repeatability: 0.04 };
    for (const each of [profile, profile, other])
      await takeFiles(drawer, [file('p.json', profileText(each))], NOON);
    expect(drawer.printers.peek()).toHaveLength(2);
  });

  test('of several files the good ones are taken, and each bad one has its line', async () => {
    await takeFiles(
      drawer,
      [file('bad.json', '{'), file('foot.job.json', demo), file('empty.json', ''), file('part.stl', 'solid')],
      NOON,
    );
    expect(onBench()).toBe(JSON.parse(demo).title);
    const { kind, lines } = drawer.told.peek()!;
    expect(kind).toBe('refused');
    expect(lines.map((line) => line.split(':')[0])).toEqual([
      'bad.json',
      'empty.json',
      'part.stl',
      `${JSON.parse(demo).title} is on the bench`,
    ]);
  });

  test('models are kept by what is in them, and found by the name the job has for them', async () => {
    await drawer.begin('case-foot');
    await drawer.keepModel('models/foot.stl', new TextEncoder().encode('abc'));
    await drawer.keeper.flush();
    const id = drawer.keeper.id.peek();
    await drawer.begin('socket-cover');
    expect(await drawer.model('models/foot.stl')).toBeUndefined();
    await drawer.open(id);
    expect(await drawer.model('models/foot.stl')).toEqual(new TextEncoder().encode('abc'));
    // FIPS 180-4, example of the message "abc".
    expect(drawer.keeper.models).toEqual({
      'models/foot.stl': 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    });
  });
});
