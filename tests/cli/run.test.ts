import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { run } from '../../src/cli/run.ts';

let said: string[];
beforeEach(() => {
  said = [];
  vi.spyOn(console, 'error').mockImplementation((text) => void said.push(String(text)));
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllEnvs();
  process.exitCode = undefined;
});

const broken = {
  families: () => Promise.reject(new Error('a wheel\ncame off')),
  worker: new URL('file:///none.js'),
};

it('says in one line, without a stack, when the fault is its own, and ends with 70', async () => {
  await run(['node', 'fettle', 'families'], broken);
  expect(said).toEqual(['fettle: internal problem: a wheel\\u000acame off, please report it']);
  expect(process.exitCode).toBe(70);
});

it('shows the stack only to those who ask for it', async () => {
  vi.stubEnv('FETTLE_TRACE', '1');
  await run(['node', 'fettle', 'families'], broken);
  expect(said).toHaveLength(2);
});
