import { expect, test } from 'vitest';
import type { JobStore, StoredJob } from '../../viewer/bench/jobStore.ts';
import { withLastWords } from '../../viewer/bench/lastWords.ts';
import { memoryStore } from '../../viewer/bench/memoryStore.ts';

const job = (revision: number, title: string, steps = 1): StoredJob => {
  const now = { fettle: 1, family: 'peg', title } as const;
  const past = Array.from({ length: steps }, (_, k) => ({ job: { ...now, title: `${k}` }, what: 'title' }));
  return { id: 'one', revision, saved: 0, sheet: 'print', models: {}, now, past, future: [] };
};

/** Web Storage as the HTML standard has it (https://html.spec.whatwg.org/multipage/webstorage.html), with room for so many
 *  characters. */
function storage(room = Number.POSITIVE_INFINITY): Storage {
  const map = new Map<string, string>();
  return {
    get length() {
      return map.size;
    },
    key: (k) => [...map.keys()][k] ?? null,
    getItem: (key) => map.get(key) ?? null,
    setItem: (key, value) => {
      if (value.length > room) throw new DOMException('full', 'QuotaExceededError');
      map.set(key, value);
    },
    removeItem: (key) => void map.delete(key),
    clear: () => map.clear(),
  };
}

/** A drawer whose page ends before it is shut. */
const cutOff = (store: JobStore): JobStore => ({ ...store, overwrite: () => new Promise(() => {}) });

test('what a page put into the drawer as it ended is there for whoever opens it next', async () => {
  const [store, words] = [memoryStore(), storage()];
  await store.overwrite(job(1, 'old'));
  void withLastWords(cutOff(store), words).overwrite(job(2, 'new'));
  const next = withLastWords(store, words);
  expect((await next.jobs()).map(({ now, sheet }) => [now.title, sheet])).toEqual([['new', 'print']]);
  expect(await next.job('one')).toMatchObject({ revision: 2, past: job(2, 'new').past });
  expect(words.length).toBe(0);
});

test('what another tab writes next goes on from it', async () => {
  const [store, words] = [memoryStore(), storage()];
  void withLastWords(cutOff(store), words).overwrite(job(3, 'new'));
  const next = await withLastWords(store, words).update(
    'one',
    (there) => there && { ...there, sheet: 'try' },
  );
  expect(next).toMatchObject({ revision: 4, sheet: 'try', now: { title: 'new' } });
});

test('words that are older than the drawer are forgotten', async () => {
  const [store, words] = [memoryStore(), storage()];
  void withLastWords(cutOff(store), words).overwrite(job(2, 'early'));
  await store.overwrite(job(3, 'late'));
  expect((await withLastWords(store, words).job('one'))?.now.title).toBe('late');
  expect(words.length).toBe(0);
});

test('a drawer that took it leaves nothing written down', async () => {
  const [store, words] = [memoryStore(), storage()];
  await withLastWords(store, words).overwrite(job(1, 'a'));
  expect(words.length).toBe(0);
  expect((await store.job('one'))?.now.title).toBe('a');
});

test('where there is little room it keeps the job and fewer steps; where there is none, the drawer alone', async () => {
  const store = memoryStore();
  const tight = storage(3000);
  void withLastWords(cutOff(store), tight).overwrite(job(1, 'a', 400));
  const there = await withLastWords(store, tight).job('one');
  expect(there?.now.title).toBe('a');
  expect(there?.past.at(-1)?.job.title).toBe('399');
  expect(there!.past.length).toBeLessThan(400);

  const full = storage(0);
  await withLastWords(store, full).overwrite(job(2, 'b'));
  expect((await store.job('one'))?.now.title).toBe('b');
});

test('what is no job is passed over', async () => {
  const [store, words] = [memoryStore(), storage()];
  for (const [key, text] of [
    ['fettle last words a', '{'],
    ['fettle last words b', 'null'],
    ['fettle last words c', '{"id":7}'],
    ['another page', 'stays'],
  ] as const)
    words.setItem(key, text);
  expect(await withLastWords(store, words).jobs()).toEqual([]);
  expect([words.length, words.getItem('another page')]).toEqual([1, 'stays']);
});
