import { signal } from '@preact/signals';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { JobFile } from '../../src/job/schema.ts';
import type { Outcome } from '../../viewer/spine/answers.ts';
import type { Spine } from '../../viewer/spine/protocol.ts';
import { keepWorked, SpineClient, Stopped } from '../../viewer/spine/spineClient.ts';
import { FakeWorker } from './fakeWorker.ts';

const job = (title: string): JobFile => ({ fettle: 1, family: 'peg', title });
const refusedFor = ({ title }: JobFile): Outcome => ({
  kind: 'refused',
  problems: [{ code: 'test', field: '', value: title ?? '', allowed: '' }],
});
const titleOf = (outcome: Outcome | undefined) =>
  outcome?.kind === 'refused' ? outcome.problems[0]!.value : outcome;

const never = new Promise<never>(() => {});

/** A client whose workers are made by these, one after the other, the last one again and again. */
function clientOf(makers: readonly (() => Partial<Spine>)[], patience?: number) {
  const workers: FakeWorker[] = [];
  const open = (): Worker => {
    const worker = new FakeWorker(makers[Math.min(workers.length, makers.length - 1)]!());
    workers.push(worker);
    return worker as unknown as Worker;
  };
  opened.push(workers);
  return { client: new SpineClient(open, patience), workers };
}
const opened: FakeWorker[][] = [];
afterEach(() => {
  for (const worker of opened.splice(0).flat()) worker.terminate();
  vi.useRealTimers();
});

const good = (): Partial<Spine> => ({ work: async (file) => refusedFor(file) });

describe('one task at a time', () => {
  test('a job comes back as it was worked', async () => {
    const { client, workers } = clientOf([good]);
    expect(titleOf(await client.work(job('a')))).toBe('a');
    expect(client.state.value).toEqual({ kind: 'idle' });
    expect(workers).toHaveLength(1);
  });

  test('a look is answered while a job is still being worked, and ends with the worker', async () => {
    const { client } = clientOf([
      () => ({ work: () => never, families: async () => [], facts: () => never }),
    ]);
    const worked = client.work(job('a'));
    expect(await client.look((spine) => spine.families())).toEqual([]);
    expect(client.state.value.kind).toBe('working');
    const facts = client.look((spine) => spine.facts(job('a')));
    client.stop();
    await expect(facts).rejects.toThrow(Stopped);
    await expect(worked).rejects.toThrow(Stopped);
  });

  test('a fault of the work beside it does not end a look, which is answered by the next worker', async () => {
    const { client, workers } = clientOf([
      () => ({ work: () => Promise.reject(new Error('no geometry')), families: () => never }),
      () => ({ families: async () => [] }),
    ]);
    const looked = client.look((spine) => spine.families());
    await expect(client.work(job('a'))).rejects.toThrow('no geometry');
    expect(await looked).toEqual([]);
    expect(workers).toHaveLength(2);
    expect(client.state.value).toMatchObject({ kind: 'broken' });
  });

  test('work after a fault begins on a worker of its own, not on one opened for a look meanwhile', async () => {
    const { client, workers } = clientOf([
      () => ({ work: () => Promise.reject(new Error('no geometry')), families: () => never }),
      () => ({ work: () => Promise.reject(new Error('no geometry')), families: async () => [] }),
      good,
    ]);
    const looked = client.look((spine) => spine.families());
    await expect(client.work(job('a'))).rejects.toThrow('no geometry');
    expect(await looked).toEqual([]);
    client.restart();
    expect(titleOf(await client.work(job('b')))).toBe('b');
    expect(workers).toHaveLength(3);
    expect(client.state.value).toEqual({ kind: 'idle' });
  });

  test('a look that breaks every worker is given up after the second', async () => {
    const { client, workers } = clientOf([
      () => ({ work: () => Promise.reject(new Error('no geometry')), families: () => never }),
      () => ({ families: () => Promise.reject(new Error('no list')) }),
    ]);
    const looked = client.look((spine) => spine.families());
    await expect(client.work(job('a'))).rejects.toThrow('no geometry');
    await expect(looked).rejects.toThrow('no list');
    expect(workers).toHaveLength(2);
  });

  test('a look that meets a fault breaks the worker as any task does', async () => {
    const { client } = clientOf([() => ({ families: () => Promise.reject(new Error('no list')) })]);
    await expect(client.look((spine) => spine.families())).rejects.toThrow('no list');
    expect(client.state.value).toMatchObject({ kind: 'broken' });
  });

  test('of jobs that wait only the newest is worked', async () => {
    const worked: (string | undefined)[] = [];
    let go = (): void => {};
    const gate = new Promise<void>((open) => {
      go = open;
    });
    const { client } = clientOf([
      () => ({
        work: async (file) => {
          worked.push(file.title);
          if (file.title === 'first') await gate;
          return refusedFor(file);
        },
      }),
    ]);
    const first = client.work(job('first'));
    await vi.waitUntil(() => worked.length === 1);
    const rest = ['second', 'third', 'fourth'].map((title) => client.work(job(title)));
    go();
    expect((await Promise.all([first, ...rest])).map(titleOf)).toEqual([
      'first',
      undefined,
      undefined,
      'fourth',
    ]);
    expect(worked).toEqual(['first', 'fourth']);
  });

  test('an outcome of an older job is never given out after a newer one was typed', async () => {
    const { client } = clientOf([good]);
    const now = signal<JobFile>(job('a'));
    const taken: unknown[] = [];
    const end = keepWorked(now, client, (outcome) => taken.push(titleOf(outcome)));
    for (const title of ['ab', 'abc', 'abcd']) now.value = job(title);
    await vi.waitUntil(() => taken.includes('abcd'));
    expect(taken).toEqual(['abcd']);
    end();
  });
});

describe('what breaks', () => {
  const cases: [string, (worker: FakeWorker) => void, RegExp][] = [
    [
      'a script that throws',
      (worker) => worker.fail('Uncaught ReferenceError: x is not defined'),
      /x is not/,
    ],
    ['a script that cannot be fetched', (worker) => worker.fail(''), /could not be fetched/],
    ['an answer that cannot be read', (worker) => worker.dispatchEvent(new Event('messageerror')), /read/],
  ];
  test.each(cases)('%s ends what was asked, and says why', async (_, fail, why) => {
    const { client, workers } = clientOf([() => ({ work: () => never }), good]);
    const asked = client.work(job('a'));
    const drawing = client.ask('a drawing', (spine) => spine.families());
    await vi.waitUntil(() => workers.length === 1);
    fail(workers[0]!);
    await expect(asked).rejects.toThrow();
    await expect(drawing).rejects.toThrow();
    expect(client.state.value).toMatchObject({ kind: 'broken', because: expect.stringMatching(why) });
    expect(workers[0]!.isGone).toBe(true);
  });

  test('a worker that never listens is given up', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const { client } = clientOf([() => ({ started: () => never })], 5000);
    const asked = client.work(job('a'));
    const ended = expect(asked).rejects.toThrow('did not start within 5 s');
    await Promise.resolve();
    vi.advanceTimersByTime(4999);
    expect(client.state.value.kind).toBe('working');
    vi.advanceTimersByTime(1);
    await ended;
    expect(client.state.value).toEqual({ kind: 'broken', because: 'it did not start within 5 s' });
  });

  test('a slow job is not given up for it once the worker listens', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const { client } = clientOf([() => ({ work: () => never })], 5000);
    client.work(job('a')).catch(() => {});
    await new Promise((later) => setImmediate(() => setImmediate(() => setImmediate(later))));
    vi.advanceTimersByTime(60_000);
    expect(client.state.value.kind).toBe('working');
    client.stop();
  });

  test('wasm that cannot be loaded is told in the words of a bench', async () => {
    const { client } = clientOf([
      () => ({
        work: async () => {
          throw new Error("Aborted(NetworkError: Failed to load 'https://host/assets/a.wasm')");
        },
      }),
    ]);
    await expect(client.work(job('a'))).rejects.toThrow('NetworkError');
    expect(client.state.value).toEqual({
      kind: 'broken',
      because: 'a piece of the page could not be fetched',
    });
  });

  test('a browser that opens no worker at all', async () => {
    const client = new SpineClient(() => {
      throw new DOMException('refused by the policy', 'SecurityError');
    });
    client.warm();
    expect(client.state.value).toEqual({ kind: 'broken', because: 'refused by the policy' });
    await expect(client.work(job('a'))).rejects.toThrow('policy');
    expect(client.state.value.kind).toBe('broken');
  });

  test('one word goes on: the job that was kept is worked by another worker', async () => {
    const broken = () => ({
      work: async (): Promise<Outcome> => {
        throw new WebAssembly.RuntimeError('unreachable');
      },
    });
    const { client, workers } = clientOf([broken, good]);
    const taken: unknown[] = [];
    const end = keepWorked(signal(job('a')), client, (outcome) => taken.push(titleOf(outcome)));
    await vi.waitUntil(() => client.state.value.kind === 'broken');
    expect(taken).toEqual([]);
    client.restart();
    await vi.waitUntil(() => taken.length === 1);
    expect(taken).toEqual(['a']);
    expect(workers).toHaveLength(2);
    expect(client.state.value.kind).toBe('idle');
    end();
  });

  test('a drawing that is asked for does not hush up that the reckoning broke', async () => {
    const broken = () => ({
      work: async (): Promise<Outcome> => {
        throw new Error('a fault');
      },
    });
    const { client } = clientOf([broken, () => ({ families: async () => [], ...good() })]);
    await client.work(job('a')).catch(() => {});
    expect(await client.ask('the list', (spine) => spine.families())).toEqual([]);
    expect(client.state.value).toEqual({ kind: 'broken', because: 'a fault' });
    await client.work(job('b'));
    expect(client.state.value.kind).toBe('idle');
  });

  test('the last gasp of a worker that is gone breaks nothing', async () => {
    const { client, workers } = clientOf([() => ({ work: () => never }), good]);
    const asked = client.work(job('a'));
    await vi.waitUntil(() => workers.length === 1);
    client.stop();
    await expect(asked).rejects.toThrow(Stopped);
    workers[0]!.fail('late');
    expect(titleOf(await client.work(job('b')))).toBe('b');
  });
});

describe('stop', () => {
  test.each([
    ['while it works', {}],
    ['while it loads', { started: () => never }],
  ])('%s: what runs and what waits ends, the next job is worked', async (_, how) => {
    const { client, workers } = clientOf([() => ({ work: () => never, ...how }), good]);
    const asked = client.work(job('a'));
    const waits = client.ask('a drawing', (spine) => spine.families());
    await vi.waitUntil(() => workers.length === 1);
    client.stop();
    await expect(asked).rejects.toThrow(Stopped);
    await expect(waits).rejects.toThrow(Stopped);
    expect(client.state.value).toEqual({ kind: 'stopped' });
    expect(workers[0]!.isGone).toBe(true);
    expect(titleOf(await client.work(job('b')))).toBe('b');
    expect(client.state.value).toEqual({ kind: 'idle' });
  });
});
