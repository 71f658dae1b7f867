import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { effect } from '@preact/signals';
import { afterEach, describe, expect, test } from 'vitest';
import { families } from '../../parts/index.ts';
import { inspect } from '../../src/job/inspection/inspection.ts';
import { jobText } from '../../src/job/jobText.ts';
import { prepare } from '../../src/job/prepare.ts';
import { parseJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { TrialRecord } from '../../src/job/trialSchema.ts';
import { profileText } from '../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { JobKeeper } from '../../viewer/bench/jobKeeper.ts';
import { memoryStore } from '../../viewer/bench/memoryStore.ts';
import { Pen } from '../../viewer/bench/pen.ts';
import { Drawer } from '../../viewer/drawer/drawer.ts';
import { followLessons } from '../../viewer/drawer/followLessons.ts';
import { withFelt } from '../../viewer/sheets/try/feltDraft.ts';
import { TryDesk } from '../../viewer/sheets/try/tryDesk.ts';
import { SpineClient } from '../../viewer/spine/spineClient.ts';
import { inspected } from '../../viewer/spine/tasks/inspect.ts';
import { printReadingsIn } from '../../viewer/spine/tasks/printReadingsIn.ts';
import { orRefused } from '../../viewer/spine/tasks/refusals.ts';
import { changesSince, lastTakenBack, trialTold } from '../../viewer/spine/tasks/trial.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { fettle } from '../cli/fettle.ts';
import { fakeLine, fakeLocks } from './fakeTabs.ts';
import { FakeWorker } from './fakeWorker.ts';

const kernel = await loadKernel();
const workers: FakeWorker[] = [];
afterEach(() => {
  for (const worker of workers.splice(0)) worker.terminate();
});

/** A desk over a job, with the tasks of the real worker across a real border, and a printer in the drawer. */
async function deskOver(job: JobFile) {
  const open = () => {
    const worker = new FakeWorker({
      work: async () => ({ kind: 'refused', problems: [] }),
      print: async (file, asked) => orRefused(() => inspected(families, file, asked)),
      printReadings: async (file, asked, name, text) => {
        const read = printReadingsIn(families, file, asked, name, text);
        return read.catch((error: Error) => orRefused(() => raise(error)));
      },
      trial: async (file, asked, said) => orRefused(() => trialTold(kernel, families, file, asked, said)),
      changesSince: async (file, index) => orRefused(() => changesSince(families, file, index)),
      takeTrialBack: async (file) => orRefused(() => lastTakenBack(families, file)),
    });
    workers.push(worker);
    return worker as unknown as Worker;
  };
  const bench = new Bench(new JobHistory(freshHistory(job)), new SpineClient(open));
  const [store, tabs] = [memoryStore(), fakeLine()()];
  const keeper = new JobKeeper(bench, store, tabs, new Pen(tabs, fakeLocks()));
  await keeper.keep({ id: 'a job', revision: 0, models: {} });
  const drawer = new Drawer(bench, keeper, store, tabs, exampleJob);
  await drawer.keepPrinter(job.printer as PrinterProfile, 0, 'own');
  // As the page does: the printer in the drawer learns with the job.
  followLessons(drawer);
  bench.sheet.value = 'try';
  const desk = new TryDesk(bench, drawer);
  await settled(desk);
  return { bench, desk, store };
}

const raise = (error: Error): never => {
  throw error;
};

/** When the worker has answered for the job as it is now. */
const settled = (desk: TryDesk): Promise<void> =>
  new Promise((resolve) => {
    let done = (): void => {};
    done = effect(() => {
      if (desk.print.facts.value === null || desk.print.stale) return;
      resolve();
      queueMicrotask(() => done());
    });
  });

/** What callipers with a cable do: digits, then Enter; the cursor follows. Gives the field it is in then. */
function cable({ reading }: TryDesk, id: string, number: string): string {
  reading.typing.open(id);
  for (let k = 1; k <= number.length; k++) reading.typing.type(number.slice(0, k));
  const next = reading.typing.enter();
  if (next === null) return id;
  reading.typing.leave(id);
  reading.typing.open(next);
  return next;
}

/** All of the print, three times each, as it is expected but for one place. */
async function readAll(desk: TryDesk, off: Readonly<Record<string, number>> = {}): Promise<void> {
  const places = desk.print.facts.value!.readings;
  let at = places[0]!.id;
  for (let k = 0; k < 3 * places.length; k++) {
    const { expected } = places.find(({ id }) => id === at)!;
    at = cable(desk, at, (expected + (off[at] ?? 0)).toFixed(2));
  }
  desk.reading.typing.leave(at);
  await settled(desk);
}

const trials = (bench: Bench) => (bench.job.value.trials ?? []) as readonly TrialRecord[];
const printer = (bench: Bench) => profileText(bench.job.value.printer as PrinterProfile);
const inDrawer = async (store: ReturnType<typeof memoryStore>) =>
  (await store.printers()).map(({ profile }) => profileText(profile));

describe('reading a print', () => {
  test('numbers and Enter alone fill its record, and the verdict is that of the job so read', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    await readAll(desk, { 'socket.width': 0.12 });
    const facts = desk.print.facts.value!;
    expect(trials(bench)).toHaveLength(1);
    expect(Object.values(trials(bench)[0]!.inspected!.readings).every((texts) => texts.length === 3)).toBe(
      true,
    );
    const { job, family } = parseJob(bench.job.value, families);
    const { sizes } = inspect(prepare(job, family), trials(bench)[0]!);
    expect(facts.sizes.map(({ id, verdict }) => [id, verdict])).toEqual(
      sizes.map(({ id, verdict }) => [id, verdict]),
    );
    expect(facts.sizes.find(({ id }) => id === 'socket.width')?.verdict).toBe('rework');
    expect(facts.cautions.length).toBeGreaterThan(0);
  });

  test('undo takes the numbers back one by one, the record with the last', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    for (const number of ['3.95', '3.96']) cable(desk, 'socket.width', number);
    desk.reading.typing.leave('socket.width');
    await settled(desk);
    bench.history.undo();
    expect(trials(bench)[0]?.inspected?.readings).toEqual({ 'socket.width': ['3.95'] });
    bench.history.undo();
    expect(bench.job.value).toEqual(exampleJob);
  });

  test('of a job that is emptied nothing is shown any more but why', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    bench.change('emptied', (job) => ({ ...job, readings: {} }));
    await expect.poll(() => desk.print.trouble.value.map(({ code }) => code)).toContain('reading_missing');
    expect(desk.print.facts.value).toBeNull();
    expect(desk.reading.rows.value).toEqual([]);
    bench.history.undo();
    await settled(desk);
    expect(desk.print.trouble.value).toEqual([]);
    expect(desk.reading.rows.value.length).toBeGreaterThan(0);
  });

  test('from a file is what the command takes from it, and goes on from what is there', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    cable(desk, 'socket.width', '3.95');
    desk.reading.typing.leave('socket.width');
    await settled(desk);
    const table = 'interface,reading\nsocket.width,3.95,3.96\nbar,1.79\n';
    const folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
    writeFileSync(join(folder, 'a.job.json'), jobText(bench.job.value));
    writeFileSync(join(folder, 'read.csv'), table);
    const args = ['inspect', 'a.job.json', '--readings', 'read.csv'];
    const { code, stderr } = await fettle(args, { cwd: folder });
    expect([0, 3], stderr).toContain(code);

    expect(await desk.takeFile(new File([table], 'read.csv'))).toEqual([]);
    const told = JSON.parse(readFileSync(join(folder, 'a.job.json'), 'utf8')) as JobFile;
    expect(JSON.parse(JSON.stringify(bench.job.value))).toEqual(told);
    expect(trials(bench)[0]?.inspected?.readings).toEqual({
      'socket.width': ['3.95', '3.96'],
      bar: ['1.79'],
    });
    expect(bench.history.undoes.value).toBe('readings from read.csv');
    bench.history.undo();
    expect(trials(bench)[0]?.inspected?.readings).toEqual({ 'socket.width': ['3.95'] });
    rmSync(folder, { recursive: true });
  });

  test('from a file that is none takes nothing, and says where and what is allowed', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    const problems = await desk.takeFile(new File(['interface,reading\nsocket,3.9\nbar,40\n'], 'read.csv'));
    expect(problems.map(({ code, field }) => [code, field])).toEqual([
      ['interface_unknown', 'line 2'],
      ['reading_unclear', 'line 3: bar'],
    ]);
    expect(await desk.takeFile(new File(['x'.repeat(2 ** 20 + 1)], 'read.csv'))).toMatchObject([
      { code: 'file_unread', field: 'read.csv' },
    ]);
    expect(bench.job.value).toEqual(exampleJob);
  });

  test('of a print of another day stands under that day', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.print.day.value = '2026-11-19';
    await expect.poll(() => desk.print.facts.value?.record.date).toBe('2026-11-19');
    cable(desk, 'bar', '1.79');
    expect(trials(bench)[0]?.date).toBe('2026-11-19');
  });

  test('what was filed is read anew', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    await readAll(desk, { 'socket.width': 0.12 });
    desk.noteFiled(['socket.width'], 'post in socket, width');
    await settled(desk);
    expect(desk.print.facts.value!.next).toEqual([{ kind: 'filed', ids: ['socket.width'] }]);
    const { expected } = desk.print.facts.value!.readings.find(({ id }) => id === 'socket.width')!;
    for (let k = 0; k < 3; k++) cable(desk, 'socket.width', expected.toFixed(2));
    await settled(desk);
    expect(trials(bench)[0]?.inspected?.after?.['socket.width']).toHaveLength(3);
    expect(desk.print.facts.value!.verdict).not.toBe('rework');
  });
});

describe('putting a print on record', () => {
  test('job and drawer learn together, the next print is another, and undo undoes both', async () => {
    const { desk, bench, store } = await deskOver(exampleJob);
    await readAll(desk, { 'socket.width': 0.08 });
    const [before, known] = [bench.job.value, printer(bench)];
    desk.say((draft) => ({
      ...withFelt(withFelt(draft, 'socket', 'tight'), 'bar', 'right'),
      note: 'by thumb',
    }));
    await desk.putOnRecord();
    const answer = desk.answer.value;
    if (answer?.kind !== 'recorded') throw new Error(`was ${answer?.kind}`);
    // Of both sizes of the post the one that was read large is meant.
    expect(answer.told.taken).toEqual([{ name: 'post in socket', word: 'tight', ids: ['socket.width'] }]);
    const [record] = trials(bench);
    expect(record).toMatchObject({ felt: { 'socket.width': 'tight', bar: 'right' }, note: 'by thumb' });
    const width = answer.told.sizes.find(({ id }) => id === 'socket.width')!;
    expect(width.after).toBeLessThan(width.before);
    expect(width.because).toMatch(/^felt tight and read 0\.0\d larger/);
    expect(answer.told.chance.after!).toBeGreaterThan(answer.told.chance.before!);

    const taught = printer(bench);
    expect(taught).not.toBe(known);
    await expect.poll(() => inDrawer(store)).toEqual([taught]);
    await settled(desk);
    expect(desk.print.facts.value).toMatchObject({ index: 1, isNew: true });
    expect(desk.draft.value.felt).toEqual({});

    bench.history.undo();
    expect(bench.job.value).toEqual(before);
    await expect.poll(() => inDrawer(store)).toEqual([known]);
    bench.history.redo();
    await expect.poll(() => inDrawer(store)).toEqual([taught]);

    await desk.takeBack();
    expect(desk.answer.value).toEqual({ kind: 'taken-back', index: 0 });
    expect(printer(bench)).toBe(known);
    expect(trials(bench)[0]).toEqual(before.trials![0]);
    await expect.poll(() => inDrawer(store)).toEqual([known]);
  });

  test('is refused where something rests on it, and nothing changes', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.say((draft) => withFelt(draft, 'bar', 'tight'));
    await desk.putOnRecord();
    bench.change('printer', (job) => ({
      ...job,
      printer: { ...(job.printer as object), repeatability: 0.031 } as never,
    }));
    const before = bench.job.value;
    await desk.takeBack();
    expect(desk.answer.value).toMatchObject({ kind: 'refused', problems: [{ code: 'trial_rested_on' }] });
    expect(bench.job.value).toBe(before);
  });
});
