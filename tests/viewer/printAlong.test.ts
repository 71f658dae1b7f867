import { readFileSync } from 'node:fs';
import { beforeAll, beforeEach, describe, expect, it, test, vi } from 'vitest';
import { families } from '../../parts/index.ts';
import { donorJob } from '../../src/job/donorJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { block } from '../../src/solid/primitives.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { JobKeeper } from '../../viewer/bench/jobKeeper.ts';
import { memoryStore } from '../../viewer/bench/memoryStore.ts';
import { Pen } from '../../viewer/bench/pen.ts';
import { Drawer } from '../../viewer/drawer/drawer.ts';
import { whyNot } from '../../viewer/sheets/print/alongWords.ts';
import { BedDesk } from '../../viewer/sheets/print/bedDesk.ts';
import type { Spine } from '../../viewer/spine/protocol.ts';
import { SpineClient } from '../../viewer/spine/spineClient.ts';
import { DonorModels } from '../../viewer/spine/tasks/donorModels.ts';
import type { BedFacts } from '../../viewer/spine/tasks/plate.ts';
import { PlateJobs } from '../../viewer/spine/tasks/plateJobs.ts';
import { whyNotAlong } from '../../viewer/spine/tasks/whyNotAlong.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { stlOf } from '../cli/donorModel.ts';
import { fakeLine, fakeLocks } from './fakeTabs.ts';
import { FakeWorker } from './fakeWorker.ts';

const demo = (part: string): JobFile =>
  JSON.parse(readFileSync(new URL(`../../parts/${part}/demo.job.json`, import.meta.url), 'utf8'));
const [clip, cover, foot] = [demo('stabiliser-clip'), demo('socket-cover'), demo('case-foot')];
const printer = cover.printer as Exclude<JobFile['printer'], string | undefined>;

/** On a machine that is busy. */
const PATIENCE = { timeout: 30_000 };

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe('what cannot be printed along', () => {
  it.each<readonly [string, JobFile, RegExp]>([
    ['filament', foot, /^another filament: TPU; wanted: PETG, as in this job$/],
    [
      'printer',
      { ...cover, printer: { ...printer, name: 'Bench Ox' } },
      /^another printer: Bench Ox; wanted: printer 1, as in this job$/,
    ],
    [
      'layer',
      { ...cover, printer: { ...printer, layer: 0.3 } },
      /^another layer: 0\.3 mm; wanted: 0\.2 mm, as in this job$/,
    ],
    ['readings to come', { ...clip, readings: {} }, /^not ready: 14 readings to go$/],
    [
      'a reading that is none',
      { ...clip, readings: { ...clip.readings, barDiameter: ['40'] } },
      /^not ready: .*40 .*; wanted: /,
    ],
    ['a printer whose profile is not there', { ...cover, printer: 'my.printer.json' }, /^not ready: printer/],
    [
      'a refit in another filament',
      { ...donorJob({ file: 'a.stl', bores: [], posts: [] }), printer, material: 'PLA' },
      /another filament: PLA/,
    ],
  ])('says why: %s', (_, job, words) => {
    const [problems] = whyNotAlong(families, clip, [job]);
    expect(whyNot(problems!)).toMatch(words);
  });

  it('says nothing of what can, a refit of the same filament among it', () => {
    const refit = { ...donorJob({ file: 'a.stl', bores: [], posts: [] }), printer, material: 'PETG' };
    expect(whyNotAlong(families, clip, [cover, refit, { ...clip, quantity: 9 }])).toEqual([[], [], []]);
    // Of a job that has no part yet nothing can differ.
    expect(whyNotAlong(families, { ...clip, readings: {} }, [foot])).toEqual([[]]);
  });
});

test('refits that call different models the same are each made of their own', async () => {
  const stored: Record<string, Uint8Array> = {
    short: await stlOf(block([0, 0, 0], [10, 8, 6])),
    long: await stlOf(block([0, 0, 0], [30, 8, 6])),
  };
  const shelf = {
    hash: async () => undefined,
    bytes: async () => undefined,
    reads: async () => {},
    stored: async (hash: string) => stored[hash],
  };
  const plates = new PlateJobs(
    async () => kernel,
    new DonorModels(families, async () => kernel, shelf),
    shelf,
  );
  const refit: JobFile = {
    ...donorJob({ file: 'foot.stl', bores: [], posts: [] }),
    ...{ printer, material: 'PETG' },
  };
  const asked = (hash: string, title: string) => ({
    job: { ...refit, title },
    models: { 'foot.stl': hash },
  });
  const laid = await plates.facts([{ job: clip, models: {} }, asked('short', 'S'), asked('long', 'L')]);
  if ('kind' in laid) throw new Error(JSON.stringify(laid.problems));
  const widths = laid.standing.map(({ contours, number }) => {
    const xs = contours.flat().map(([x]) => x);
    const ys = contours.flat().map(([, y]) => y);
    const sides = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
    return [laid.kinds[number - 1]!.name, Math.round(Math.max(...sides))];
  });
  expect(Object.fromEntries(widths)).toMatchObject({ S: 10, L: 30 });
  expect(laid.jobs.map(({ title }) => title)).toEqual([clip.title, 'S', 'L']);
  // One that is not in this browser is to blame itself.
  const gone = await plates.facts([{ job: clip, models: {} }, asked('gone', 'G')]);
  expect(gone).toMatchObject({ blamed: [{ job: 1, problems: [{ code: 'model_missing' }] }] });
});

describe('the bed', () => {
  const facts = (jobs: readonly { readonly job: JobFile }[]) =>
    ({ jobs: jobs.map(({ job }) => ({ title: job.title })), kinds: [], standing: [] }) as unknown as BedFacts;
  let asked: { readonly titles: readonly (string | undefined)[]; readonly spacing: number | undefined }[];
  let hold: Promise<void> | undefined;
  let drawer: Drawer;
  let desk: BedDesk;

  beforeEach(async () => {
    asked = [];
    hold = undefined;
    const spine: Partial<Spine> = {
      work: async () => ({ kind: 'made', result: { findings: [] }, scene: [], took: 0 }) as never,
      bed: async (job) => facts([{ job }]),
      plate: async (jobs, spacing) => {
        asked.push({ titles: jobs.map(({ job }) => job.title), spacing });
        await hold;
        return facts(jobs);
      },
      whyNotAlong: async (_, others) => others.map(() => []),
    };
    const store = memoryStore();
    const tabs = fakeLine()();
    const client = new SpineClient(() => new FakeWorker(spine) as unknown as Worker);
    const bench = new Bench(new JobHistory(freshHistory(exampleJob)), client);
    const keeper = new JobKeeper(bench, store, tabs, new Pen(tabs, fakeLocks()));
    await keeper.keep({ id: 'example', revision: 0, models: {} });
    drawer = new Drawer(bench, keeper, store, tabs, exampleJob);
    for (const title of ['one', 'two', 'three']) await drawer.add({ ...clip, title });
    bench.sheet.value = 'print';
    desk = new BedDesk(bench, drawer);
  });
  const idOf = (title: string) => drawer.lines.peek().find(({ now }) => now.title === title)!.id;
  const laid = () => desk.facts.value?.jobs.map(({ title }) => title);
  const settles = (titles: readonly string[]) =>
    vi.waitFor(() => {
      expect(desk.stale.value).toBe(false);
      expect(laid()).toEqual(titles);
    }, PATIENCE);

  it('holds what is ticked behind the job on the bench, in the order of the ticks', async () => {
    await settles(['three']);
    expect(asked).toEqual([]);
    desk.along.tick(idOf('two'), true);
    expect(desk.stale.value).toBe(true);
    expect(laid()).toEqual(['three']);
    await settles(['three', 'two']);
    desk.along.tick(idOf('one'), true);
    await settles(['three', 'two', 'one']);
    desk.along.tick(idOf('two'), false);
    desk.along.spacing.value = '2,5';
    await settles(['three', 'one']);
    expect(asked.at(-1)).toEqual({ titles: ['three', 'one'], spacing: 2.5 });
    // What is no distance is said to be none, and leaves what lies there.
    const before = asked.length;
    desk.along.spacing.value = '0.5';
    expect(desk.along.apartTrouble.value).toBe('allowed: 1 to 50 mm');
    expect(desk.stale.value).toBe(true);
    expect(asked).toHaveLength(before);
    expect(await desk.files('stl')).toMatchObject({ problems: [{ code: 'spacing_range', value: '0.5' }] });
  });

  it('is laid again after it was stopped on the way', async () => {
    await settles(['three']);
    let go = () => {};
    hold = new Promise((resolve) => {
      go = resolve;
    });
    desk.along.tick(idOf('two'), true);
    await vi.waitFor(() => expect(asked).toHaveLength(1), PATIENCE);
    drawer.bench.spine.stop();
    go();
    hold = undefined;
    await vi.waitFor(() => expect(drawer.bench.spine.state.value.kind).toBe('stopped'), PATIENCE);
    expect(laid()).toEqual(['three']);
    expect(desk.stale.value).toBe(true);
    drawer.bench.spine.restart();
    await settles(['three', 'two']);
  });

  it('loses a job that is thrown away, and forgets all of them with another job on the bench', async () => {
    desk.along.tick(idOf('one'), true);
    desk.along.tick(idOf('two'), true);
    await settles(['three', 'one', 'two']);
    await drawer.throwAway(idOf('one'), Date.now());
    await settles(['three', 'two']);
    await drawer.open(idOf('two'));
    drawer.bench.sheet.value = 'print';
    await settles(['two']);
    expect(desk.along.lines.value.map(({ line, isAlong }) => [line.now.title, isAlong])).toEqual([
      ['three', false],
    ]);
  });
});
