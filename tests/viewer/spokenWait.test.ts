import { effect, signal } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { SpineState } from '../../viewer/spine/spineClient.ts';
import { SpokenWait } from '../../viewer/spine/spokenWait.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A worker that can be set working, and everything that is heard of it. */
function listener() {
  const state = signal<SpineState>({ kind: 'idle' });
  const wait = new SpokenWait(state);
  const heard: string[] = [];
  effect(() => void (wait.said.value !== '' && heard.push(wait.said.value)));
  const works = (what: string, ms: number) => {
    state.value = { kind: 'working', since: 0, what };
    vi.advanceTimersByTime(ms);
  };
  const rests = (ms: number) => {
    state.value = { kind: 'idle' };
    vi.advanceTimersByTime(ms);
  };
  return { state, wait, heard, works, rests };
}

describe('a long wait', () => {
  it('is spoken of once, however long, and ends without a word where the verdict speaks', () => {
    const { heard, wait, works, rests } = listener();
    works('the part', 3900);
    expect(heard).toEqual([]);
    vi.advanceTimersByTime(60_000);
    expect(heard).toEqual(['Still reckoning the part.']);
    rests(1000);
    expect(heard).toHaveLength(1);
    expect([wait.said.value, wait.count.value]).toEqual(['', 1]);
  });

  it('of anything else ends by a word', () => {
    const { heard, works, rests } = listener();
    works('the ladder', 5000);
    rests(1000);
    expect(heard).toEqual(['Still reckoning the ladder.', 'Done: the ladder.']);
  });

  it('is one where tasks follow one another at once, and another one after a rest', () => {
    const { heard, wait, works, rests } = listener();
    for (let k = 0; k < 8; k++) {
      works('the part', 900);
      rests(50);
    }
    expect(heard).toEqual(['Still reckoning the part.']);
    rests(1000);
    works('the part', 5000);
    expect(wait.count.value).toBe(2);
  });

  it('is nothing to hear of where each keystroke is answered soon', () => {
    const { heard, wait, works, rests } = listener();
    for (let k = 0; k < 40; k++) {
      works('the part', 300);
      rests(500);
    }
    expect(heard).toEqual([]);
    expect(wait.count.value).toBe(0);
  });

  it('that was stopped says no more', () => {
    const { heard, state, wait, works } = listener();
    works('the bed', 5000);
    state.value = { kind: 'stopped' };
    vi.advanceTimersByTime(20_000);
    expect([heard, wait.said.value]).toEqual([['Still reckoning the bed.'], '']);
  });
});
