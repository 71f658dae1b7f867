import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Settled } from '../../viewer/verdict/settled.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** What is said, one after another, as a screen reader hears it. */
function listen(settled: Settled): string[] {
  const heard: string[] = [];
  settled.said.subscribe((text) => void (text !== '' && heard.push(text)));
  return heard;
}

it('says where a change ended and not its way there', () => {
  const settled = new Settled(100);
  const heard = listen(settled);
  for (const text of ['91 %', null, '92 %', null, '93 %']) {
    settled.offer(text);
    vi.advanceTimersByTime(60);
  }
  expect(heard).toEqual([]);
  vi.advanceTimersByTime(60);
  expect(heard).toEqual(['93 %']);
});

it('says nothing while it is being worked out, however long that takes', () => {
  const settled = new Settled(100);
  const heard = listen(settled);
  settled.offer('91 %');
  settled.offer(null);
  vi.advanceTimersByTime(10_000);
  expect(heard).toEqual([]);
});

it('does not say the same twice, nor start its rest anew for it', () => {
  const settled = new Settled(100);
  const heard = listen(settled);
  settled.offer('91 %');
  vi.advanceTimersByTime(70);
  settled.offer('91 %');
  vi.advanceTimersByTime(40);
  expect(heard).toEqual(['91 %']);
  settled.offer(null);
  settled.offer('91 %');
  vi.advanceTimersByTime(500);
  settled.offer('95 %');
  vi.advanceTimersByTime(500);
  expect(heard).toEqual(['91 %', '95 %']);
});

it('is silent once it has ended', () => {
  const settled = new Settled(100);
  const heard = listen(settled);
  settled.offer('91 %');
  settled.end();
  vi.advanceTimersByTime(500);
  expect(heard).toEqual([]);
});

it('says the same once more to somebody who waited for it', () => {
  const settled = new Settled(100);
  const heard = listen(settled);
  settled.offer('91 %');
  vi.advanceTimersByTime(200);
  settled.offer(null);
  settled.forget();
  settled.offer('91 %');
  vi.advanceTimersByTime(200);
  expect(heard).toEqual(['91 %', '91 %']);
});
