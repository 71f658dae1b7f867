import { effect } from '@preact/signals';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { families } from '../../parts/index.ts';
import { jobFacts } from '../../src/job/jobFacts.ts';
import { prepare } from '../../src/job/prepare.ts';
import { parseJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { Bench } from '../../viewer/bench/bench.ts';
import { freshHistory, JobHistory } from '../../viewer/bench/jobHistory.ts';
import { MeasureDesk } from '../../viewer/sheets/measure/measureDesk.ts';
import { SpineClient } from '../../viewer/spine/spineClient.ts';
import { orRefused } from '../../viewer/spine/tasks/refusals.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { FakeWorker } from './fakeWorker.ts';

const facts = async (file: JobFile) =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    return jobFacts(job, family);
  });
const workers: FakeWorker[] = [];

/** A desk over a job, with what to measure from the real thing, across a real border. */
async function deskOver(job: JobFile): Promise<{ desk: MeasureDesk; bench: Bench }> {
  const open = () => {
    const worker = new FakeWorker({ work: async () => ({ kind: 'refused', problems: [] }), facts });
    workers.push(worker);
    return worker as unknown as Worker;
  };
  const bench = new Bench(new JobHistory(freshHistory(job)), new SpineClient(open));
  const desk = new MeasureDesk(bench);
  await new Promise<void>((resolve) => {
    effect(() => {
      // The first row has its dimension once the distributions are there.
      const ready = desk.rows.value.length > 0;
      const read = desk.rows.value.every(({ texts, dimension }) => texts.length === 0 || dimension !== null);
      if (ready && read) resolve();
    });
  });
  return { desk, bench };
}

/** What callippers with a cable do: digits, then Enter; the cursor follows. Gives the field it is in then. */
function cable(desk: MeasureDesk, id: string, number: string): string {
  desk.typing.open(id);
  for (let k = 1; k <= number.length; k++) desk.typing.type(number.slice(0, k));
  const next = desk.typing.enter();
  if (next === null) return id;
  desk.typing.leave(id);
  desk.typing.open(next);
  return next;
}

const unread: JobFile = { ...exampleJob, readings: {} };
const textsOf = (bench: Bench, id: string) => bench.job.value.readings?.[id] ?? [];
const rowOf = (desk: MeasureDesk, id: string) => desk.rows.value.find(({ facts }) => facts.id === id)!;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => {
  vi.useRealTimers();
  for (const worker of workers.splice(0)) worker.terminate();
});

describe('hands-free', () => {
  test('numbers and Enter alone fill the whole sheet in order, and the pipeline reads the same job', async () => {
    const { desk, bench } = await deskOver(unread);
    const asked = desk.rows.value.map(({ facts: { id, times } }) => {
      const typed = (exampleJob.readings?.[id] ?? []).map(String);
      return { id, numbers: Array.from({ length: times }, (_, k) => typed[k % typed.length]!) };
    });
    let at = asked[0]!.id;
    desk.typing.open(at);
    for (const { id, numbers } of asked) {
      for (const number of numbers) {
        expect(at).toBe(id);
        at = cable(desk, at, number);
      }
    }
    expect(desk.typing.said.value).toContain('Every reading is there');
    expect(bench.job.value.readings).toEqual(
      Object.fromEntries(asked.map(({ id, numbers }) => [id, numbers])),
    );
    const { job, family } = parseJob(bench.job.value, families);
    const { dimensions } = prepare(job, family);
    for (const { facts, dimension, sizes } of desk.rows.value) {
      expect(dimension).toEqual(dimensions[facts.id]);
      // JCGM 100:2008, 4.2.1: the mean of what was read is the estimate.
      expect(sizes.reduce((sum, size) => sum + size, 0) / sizes.length).toBeCloseTo(dimension!.value, 9);
    }
  });

  test('a refused number stays, is named, and the next one replaces it', async () => {
    const { desk, bench } = await deskOver(unread);
    const at = cable(desk, 'socketWidth', '0.16');
    expect(at).toBe('socketWidth');
    expect(textsOf(bench, 'socketWidth')).toEqual([]);
    expect(desk.typing.draft.value).toMatchObject({ text: '0.16', rested: true });
    // 0.16 in is 4.064 mm: the inch is 25.4 mm.
    expect(desk.typing.judged('0.16')).toContain('inches');
    desk.typing.type('4.02');
    expect(desk.typing.enter()).toBeNull();
    expect(textsOf(bench, 'socketWidth')).toEqual(['4.02']);
  });
});

describe('with each keystroke', () => {
  test('what can be read counts at once, what cannot only goes when typing pauses', async () => {
    const { desk, bench } = await deskOver(unread);
    desk.typing.open('socketWidth');
    const counted = ['4', '4.', '4.0', '4.02'].map((text) => {
      desk.typing.type(text);
      return [...textsOf(bench, 'socketWidth')];
    });
    expect(counted).toEqual([['4'], ['4'], ['4.0'], ['4.02']]);
    desk.typing.type('4.02.');
    vi.advanceTimersByTime(5000);
    expect(textsOf(bench, 'socketWidth')).toEqual([]);
    expect(desk.typing.draft.value).toMatchObject({ text: '4.02.', rested: true });
  });

  test('units are understood as the pipeline does', async () => {
    const { desk } = await deskOver({ ...unread, unit: 'in' });
    desk.typing.open('socketWidth');
    // 25.4 mm to the inch.
    for (const [text, mm] of [
      ['1/8', 3.175],
      ['0,125', 3.175],
      ['3.175 mm', 3.175],
      ['1/8"', 3.175],
      ['125 thou', 3.175],
    ] as const) {
      desk.typing.type(text);
      expect(desk.typedValue()).toBeCloseTo(mm, 9);
    }
    desk.typing.type('about');
    expect(desk.typedValue()).toBeNull();
  });

  test('whatever is typed, a job never holds what cannot be read, and undo leads back to where it began', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    const ids = desk.rows.value.map(({ facts }) => facts.id).slice(0, 4);
    const key = fc.oneof(
      { weight: 6, arbitrary: fc.constantFrom(...'0123456789.,/" m') },
      { weight: 2, arbitrary: fc.constantFrom('Enter', 'Up', 'Down', 'Escape', 'rest', 'clear', 'away') },
      { weight: 1, arbitrary: fc.constantFrom(...ids) },
    );
    fc.assert(
      fc.property(fc.array(key, { minLength: 1, maxLength: 40 }), (keys) => {
        let at = ids[0]!;
        desk.typing.open(at);
        const go = (to: string | null) => {
          if (to === null || to === at) return;
          desk.typing.leave(at);
          at = to;
          desk.typing.open(at);
        };
        const deeds: Readonly<Record<string, () => void>> = {
          Enter: () => go(desk.typing.enter()),
          Up: () => desk.typing.step(-1),
          Down: () => desk.typing.step(1),
          Escape: () => desk.typing.giveUp(),
          rest: () => vi.advanceTimersByTime(2000),
          clear: () => desk.typing.type(''),
          away: () => desk.typing.takeAway(),
        };
        for (const one of keys) {
          if (deeds[one]) deeds[one]();
          else if (one.length > 1) go(one);
          else desk.typing.type(`${desk.typing.draft.value?.text ?? ''}${one}`);
          for (const { refusals } of desk.rows.value)
            expect(refusals.every((refused) => refused === null)).toBe(true);
        }
        desk.typing.leave(at);
        while (bench.history.undoes.value !== null) bench.history.undo();
        expect(bench.job.value).toEqual(exampleJob);
        bench.lay(freshHistory(exampleJob));
      }),
      { seed: 17, numRuns: 60 },
    );
  });
});

describe('corrections', () => {
  const width = exampleJob.readings!.socketWidth!;

  test('the number before is reached from the field, corrected in its place, one step to undo', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.typing.open('socketWidth');
    desk.typing.step(-1);
    desk.typing.step(-1);
    expect(desk.typing.draft.value).toMatchObject({ slot: width.length - 2, text: width.at(-2) });
    for (const text of ['4', '4.1', '4.11']) desk.typing.type(text);
    desk.typing.enter();
    expect(textsOf(bench, 'socketWidth')).toEqual([...width.slice(0, -2), '4.11', width.at(-1)]);
    bench.history.undo();
    expect(bench.job.value).toEqual(exampleJob);
    expect(bench.history.undoes.value).toBeNull();
  });

  test('emptied and entered it is taken away', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.typing.open('socketWidth', 0);
    desk.typing.type('');
    expect(desk.typing.enter()).toBeNull();
    expect(textsOf(bench, 'socketWidth')).toEqual(width.slice(1));
    expect(desk.typing.said.value).toContain(`${width[0]} taken away`);
  });

  test('given up, nothing has happened', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.typing.open('socketWidth');
    for (const text of ['4', '4.1', '4.1x']) desk.typing.type(text);
    desk.typing.giveUp();
    expect(bench.job.value).toEqual(exampleJob);
    expect(bench.history.undoes.value).toBeNull();
  });

  test('what was left unreadable stays in its field, marked, and comes back with the cursor', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.typing.open('socketWidth');
    desk.typing.type('4..1');
    desk.typing.leave('socketWidth');
    expect(bench.job.value).toEqual(exampleJob);
    expect(rowOf(desk, 'socketWidth')).toMatchObject({ left: '4..1', state: 'refused' });
    desk.typing.open('socketWidth');
    expect(desk.typing.draft.value?.text).toBe('4..1');
    expect(rowOf(desk, 'socketWidth').left).toBeUndefined();
  });

  test('undo beneath the field and another job on the bench start it anew', async () => {
    const { desk, bench } = await deskOver(exampleJob);
    desk.typing.open('socketWidth');
    desk.typing.type('4.05');
    bench.history.undo();
    expect(desk.typing.draft.value).toMatchObject({ text: '', slot: width.length });
    desk.typing.type('4..');
    bench.lay(freshHistory({ ...exampleJob, title: 'another' }));
    expect(desk.typing.draft.value).toBeNull();
    expect(rowOf(desk, 'socketWidth').left).toBeUndefined();
  });

  test('a reading that stands apart is doubtful, and says which', async () => {
    const { desk } = await deskOver(exampleJob);
    // Iglewicz and Hoaglin's rule: 0.3 mm off five readings within 0.03 mm is far more than 3.5 robust deviations.
    cable(desk, 'socketWidth', '4.33');
    const { state, dimension } = rowOf(desk, 'socketWidth');
    expect(state).toBe('doubtful');
    expect(dimension?.remarks.find(({ kind }) => kind === 'outlier')?.index).toBe(width.length);
  });
});
