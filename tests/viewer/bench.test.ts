import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { families } from '../../parts/index.ts';
import { fileBase } from '../../src/job/fileBase.ts';
import { parseJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { freshHistory, JobHistory, redone, stepped, undone } from '../../viewer/bench/jobHistory.ts';
import { newId } from '../../viewer/bench/newId.ts';
import { emptied, isExample } from '../../viewer/drawer/emptied.ts';
import { when } from '../../viewer/drawer/when.ts';
import { faultWords } from '../../viewer/spine/faultWords.ts';
import { exampleJob } from '../../viewer/start/exampleJob.ts';
import { undoKey } from '../../viewer/start/undoKey.ts';

const job = (title: string): JobFile => ({ fettle: 1, family: 'peg', title });

describe('history', () => {
  test('any way back leads through the same jobs, and any way on again', () => {
    const titles = fc.array(fc.string({ maxLength: 3 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(titles, fc.nat(40), (titles, back) => {
        const jobs = [job('start'), ...titles.map(job)];
        const last = jobs
          .slice(1)
          .reduce((h, next, k) => stepped(h, next, `step ${k}`), freshHistory(jobs[0]!));
        let history = last;
        for (let k = 0; k < back; k++) history = undone(history);
        const left = Math.max(0, titles.length - back);
        expect(history.now).toEqual(jobs[left]);
        for (let k = 0; k < back; k++) history = redone(history);
        expect(history).toEqual(last);
      }),
      { seed: 7 },
    );
  });

  test('digits typed after one another are one step, until something else happens', () => {
    const bench = new JobHistory(freshHistory(job('')));
    for (const title of ['a', 'ab', 'abc']) bench.change(job(title), 'title', true);
    bench.change(job('abc!'), 'something else');
    for (const title of ['x', 'xy']) bench.change(job(title), 'title', true);
    expect(bench.history.value.past.map(({ what }) => what)).toEqual(['title', 'something else', 'title']);
    bench.undo();
    expect([bench.job.value.title, bench.undoes.value, bench.redoes.value]).toEqual([
      'abc!',
      'something else',
      'title',
    ]);
  });

  test('what changes nothing is no step, and nothing to undo is no deed', () => {
    const bench = new JobHistory(freshHistory(job('a')));
    let deeds = 0;
    bench.watch(() => deeds++);
    bench.step('nothing', (now) => now);
    bench.undo();
    bench.redo();
    expect(deeds).toBe(0);
    expect(bench.undoes.value).toBeNull();
  });
});

describe('the example', () => {
  test('emptied it is a job of the same build with nothing read, and undo brings it back', () => {
    const empty = emptied(exampleJob);
    expect(parseJob(empty, families).job.choices).toEqual(parseJob(exampleJob, families).job.choices);
    expect(Object.values(empty.readings ?? {}).flat()).toEqual([]);
    expect(Object.keys(empty.readings ?? {})).toEqual(Object.keys(exampleJob.readings ?? {}));
    expect(isExample(exampleJob, exampleJob)).toBe(true);
    expect(isExample(empty, exampleJob)).toBe(false);
    const bench = new JobHistory(freshHistory(exampleJob));
    bench.step('emptied', emptied);
    bench.undo();
    expect(bench.job.value).toEqual(exampleJob);
  });

  test('one reading typed over leaves it the example, another title makes it one of your own', () => {
    const [first] = Object.keys(exampleJob.readings ?? {});
    const typed = { ...exampleJob, readings: { ...exampleJob.readings, [first!]: ['3'] } };
    expect(isExample(typed, exampleJob)).toBe(true);
    expect(isExample({ ...typed, title: 'mine' }, exampleJob)).toBe(false);
  });
});

describe('undo by keys', () => {
  const press = (key: string, held: string) =>
    undoKey({
      key,
      ctrlKey: held.includes('c'),
      metaKey: held.includes('m'),
      shiftKey: held.includes('s'),
      altKey: held.includes('a'),
    });
  // Keys as common on the systems; from memory.
  test.each([
    ['z', 'c', 'undo'],
    ['z', 'm', 'undo'],
    ['Z', 'cs', 'redo'],
    ['Z', 'ms', 'redo'],
    ['y', 'c', 'redo'],
    ['z', '', null],
    ['Z', 's', null],
    ['z', 'ca', null],
    ['z', 'cm', null],
    ['x', 'c', null],
  ])('%s with %s is %s', (key, held, way) => expect(press(key, held)).toBe(way));
});

test('when a job was saved, by the clock of the bench', () => {
  const noon = Date.UTC(2026, 10, 21, 12);
  expect(when(Date.UTC(2026, 10, 21, 9, 5), noon, 0)).toBe('today 09:05');
  // An hour east of Greenwich the day begins an hour earlier.
  expect(when(Date.UTC(2026, 10, 20, 23, 30), noon, -60)).toBe('today 00:30');
  expect(when(Date.UTC(2026, 10, 20, 23, 30), noon, 0)).toBe('20 Nov 2026');
});

test('what broke is told in the words of a bench, without addresses', () => {
  // Messages as browsers word them; from memory, but for the one of a failed fetch, which the page showed.
  expect(faultWords(new RangeError('WebAssembly.Memory(): could not allocate memory'))).toBe(
    'the memory of this browser did not suffice (WebAssembly.Memory(): could not allocate memory)',
  );
  expect(faultWords(new TypeError('Failed to fetch dynamically imported module: http://h/a.js'))).toBe(
    'a piece of the page could not be fetched',
  );
  expect(faultWords(new WebAssembly.RuntimeError('unreachable'))).toBe(
    'the geometry met a fault (unreachable)',
  );
  expect(faultWords(new WebAssembly.CompileError('WebAssembly.instantiate(): bad magic'))).toBe(
    'this browser could not start the geometry (WebAssembly.instantiate(): bad magic)',
  );
  expect(faultWords('')).toBe('a fault without a name');
});

test('files are called as the job is, in a form that every system takes', () => {
  expect(fileBase('Ä/key: "left"', 'peg')).toBe('Ä-key-left');
  // Names kept for devices: Microsoft, "Naming Files, Paths, and Namespaces".
  expect(fileBase('con', 'peg')).toBe('peg');
  expect(fileBase('...', 'peg')).toBe('peg');
});

test('ids of jobs differ', () => {
  const ids = new Set(Array.from({ length: 1000 }, newId));
  expect(ids.size).toBe(1000);
  for (const id of ids) expect(id).toMatch(/^[0-9a-f]{24}$/);
});
