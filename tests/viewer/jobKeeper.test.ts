import { signal } from '@preact/signals';
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import type { JobFile } from '../../src/job/schema.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { JobKeeper } from '../../viewer/bench/jobKeeper.ts';
import type { JobStore } from '../../viewer/bench/jobStore.ts';
import { memoryStore } from '../../viewer/bench/memoryStore.ts';
import { type Locks, Pen } from '../../viewer/bench/pen.ts';
import { fakeLine, fakeLocks } from './fakeTabs.ts';

const job: JobFile = { fettle: 1, family: 'peg', title: 'peg', readings: { hole: [], depth: [] } };
const ID = 'a job';

/** Tabs of one browser. */
function browser(locks: Locks | undefined = fakeLocks(), store: JobStore = memoryStore()) {
  const line = fakeLine();
  return {
    store,
    async tab() {
      const there = await store.job(ID);
      const history = new JobHistory(there ?? freshHistory(job));
      const tabs = line();
      const pen = new Pen(tabs, locks, 20);
      const sheet = signal('measure');
      const keeper = new JobKeeper({ history, sheet }, store, tabs, pen);
      await keeper.keep(there ?? { id: ID, revision: 0, models: {} });
      const read = (id: string, text: string) =>
        history.step(`${id} read`, (now) => ({
          ...now,
          readings: { ...now.readings, [id]: [...(now.readings?.[id] ?? []), text] },
        }));
      return { history, pen, sheet, keeper, read, now: () => history.job.peek() };
    },
  };
}

describe('one tab', () => {
  test('a job that nobody touched is not put into the drawer', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.sheet.value = 'print';
    await a.keeper.flush();
    expect(await store.jobs()).toEqual([]);
  });

  test('what is typed lies in the drawer with its past and its sheet, without a word', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.read('hole', '4,02');
    a.sheet.value = 'fit';
    expect(a.keeper.keeping.value.kind).toBe('writing');
    await vi.waitUntil(() => a.keeper.keeping.value.kind === 'kept');
    expect(await store.job(ID)).toMatchObject({
      sheet: 'fit',
      now: { readings: { hole: ['4,02'] } },
      past: [{ what: 'hole read', job }],
    });
  });

  test('undo and redo are kept as well', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    a.history.undo();
    await a.keeper.flush();
    const { now, past, future } = (await store.job(ID))!;
    expect(now).toEqual(job);
    expect(past).toEqual([]);
    expect(future.map(({ what }) => what)).toEqual(['hole read']);
  });

  test('typed and closed within the same moment', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    a.keeper.saveAtOnce();
    expect((await store.job(ID))?.now.readings).toEqual({ hole: ['4.02'], depth: [] });
  });

  test('closed while a save is on its way', async () => {
    const slow = memoryStore();
    const { store, tab } = browser(fakeLocks(), {
      ...slow,
      update: async (...asked) => {
        await new Promise((later) => setImmediate(later));
        return slow.update(...asked);
      },
    });
    const a = await tab();
    a.read('hole', '4.02');
    const saving = a.keeper.flush();
    await Promise.resolve();
    a.read('hole', '4.03');
    a.keeper.saveAtOnce();
    await saving;
    await a.keeper.flush();
    a.read('depth', '3');
    await a.keeper.flush();
    expect((await store.job(ID))?.now.readings).toEqual({ hole: ['4.02', '4.03'], depth: ['3'] });
  });

  test('full storage is said, and kept is what was typed meanwhile once there is room', async () => {
    const { update, ...rest } = memoryStore();
    let isFull = true;
    const { store, tab } = browser(fakeLocks(), {
      ...rest,
      update: async (...asked) => {
        if (isFull) throw new DOMException('no room', 'QuotaExceededError');
        return update(...asked);
      },
    });
    const a = await tab();
    a.read('hole', '1');
    await a.keeper.flush();
    expect(a.keeper.keeping.value).toEqual({ kind: 'unkept', because: 'full', said: 'no room' });
    a.read('hole', '2');
    isFull = false;
    await a.keeper.flush();
    expect(a.keeper.keeping.value).toEqual({ kind: 'kept' });
    expect((await store.job(ID))?.now.readings?.hole).toEqual(['1', '2']);
  });
});

describe('two tabs on one job', () => {
  test('the first has the pen; the second shows what it writes', async () => {
    const { tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    await a.keeper.flush();
    const b = await tab();
    expect([a.pen.place.value, b.pen.place.value]).toEqual(['here', 'elsewhere']);
    a.read('depth', '3.1');
    await a.keeper.flush();
    await vi.waitUntil(() => b.now().readings?.depth?.length === 1);
    expect(b.now()).toEqual(a.now());
    expect(b.history.history.value).toEqual(a.history.history.value);
  });

  test('the pen follows the hand, and the other tab saves first', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    await a.keeper.flush();
    const b = await tab();
    // Both at once: neither has heard of the other.
    a.read('hole', '4.03');
    b.read('depth', '3.1');
    await vi.waitUntil(() => b.pen.place.value === 'here' && a.pen.place.value === 'elsewhere');
    await Promise.all([a.keeper.flush(), b.keeper.flush()]);
    const both = { hole: ['4.02', '4.03'], depth: ['3.1'] };
    expect((await store.job(ID))?.now.readings).toEqual(both);
    await vi.waitUntil(() => [a, b].every((each) => each.now().readings?.depth?.length === 1));
    expect(a.now().readings).toEqual(both);
    expect(b.now().readings).toEqual(both);
  });

  test.each([undefined, 5])(
    'digits typed while the pen is on its way take it once, news %s ms late',
    async (late) => {
      const { tab } = browser(fakeLocks(late));
      const a = await tab();
      a.read('hole', '4.02');
      await a.keeper.flush();
      const b = await tab();
      for (const text of ['3', '3.1', '3.12']) b.read('depth', text);
      await vi.waitUntil(() => a.pen.place.value === 'elsewhere');
      // Whatever the tabs and the locks still have to say to each other.
      await new Promise((rest) => setTimeout(rest, 60));
      expect([a.pen.place.value, b.pen.place.value]).toEqual(['elsewhere', 'here']);
    },
  );

  test('a tab that is asleep loses the pen after a while, and what it had typed comes in later', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    await a.keeper.flush();
    const b = await tab();
    a.pen.beforeGiving = () => new Promise(() => {});
    a.read('hole', '4.03');
    await b.pen.take();
    expect([a.pen.place.value, b.pen.place.value]).toEqual(['elsewhere', 'here']);
    b.read('depth', '3.1');
    await b.keeper.flush();
    await a.keeper.flush();
    expect((await store.job(ID))?.now.readings).toEqual({ hole: ['4.02', '4.03'], depth: ['3.1'] });
  });

  test('when the tab with the pen goes, the other one gets it', async () => {
    const { tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    await a.keeper.flush();
    const b = await tab();
    await a.keeper.keep({ id: 'another job', revision: 0, models: {} });
    await vi.waitUntil(() => b.pen.place.value === 'here');
    expect(a.pen.place.value).toBe('here');
  });

  test('a job thrown away in one tab and written on in the other is there', async () => {
    const { store, tab } = browser();
    const a = await tab();
    a.read('hole', '4.02');
    await a.keeper.flush();
    await store.update(ID, (there) => there && { ...there, thrown: 1 });
    a.read('hole', '4.03');
    await a.keeper.flush();
    const there = await store.job(ID);
    expect(there?.thrown).toBeUndefined();
    expect(there?.now.readings?.hole).toEqual(['4.02', '4.03']);
  });

  // Whatever the order of typing, saving and hearing, with locks or without: every reading taken in either tab is there once.
  test.each([
    ['with locks', true],
    ['without locks', false],
  ])('nothing typed is lost or doubled, %s', async (_, withLocks) => {
    const moves = fc.array(
      fc.record({ tab: fc.nat(1), does: fc.constantFrom('type', 'save', 'hide', 'take', 'wait') }),
      {
        maxLength: 25,
      },
    );
    await fc.assert(
      fc.asyncProperty(moves, async (moves) => {
        const { store, tab } = browser(withLocks ? fakeLocks() : undefined);
        const tabs = [await tab(), await tab()] as const;
        const typed: string[] = [];
        for (const [k, move] of moves.entries()) {
          const here = tabs[move.tab]!;
          if (move.does === 'type') {
            typed.push(String(k));
            here.read('hole', String(k));
          } else if (move.does === 'save') void here.keeper.flush();
          else if (move.does === 'hide') here.keeper.saveAtOnce();
          else if (move.does === 'take') void here.pen.take();
          else await new Promise((later) => setImmediate(later));
        }
        await tabs[0].keeper.flush();
        await tabs[1].keeper.flush();
        await new Promise((later) => setImmediate(later));
        await Promise.all(tabs.map(({ keeper }) => keeper.flush()));
        const kept = (await store.job(ID))?.now.readings?.hole ?? [];
        expect([...kept].sort()).toEqual([...typed].sort());
        for (const each of tabs)
          expect([...(each.now().readings?.hole ?? [])].sort()).toEqual([...typed].sort());
      }),
      { seed: 20261126, numRuns: 150 },
    );
  });
});
