// Locks of folders: one writer at a time, and none that a dead process could keep.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { giveBack, takeLock } from '../../src/cli/disk/folderLock.ts';
import { holding } from '../../src/cli/disk/holding.ts';
import { thisProcess } from '../../src/cli/disk/processMark.ts';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
import { workshop } from '../cli/fettle.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const lock = () => join(bench.folder, '.fettle-lock');
const putLock = (mark: object, age = 0) => {
  writeFileSync(lock(), JSON.stringify({ ...thisProcess, ...mark }));
  const at = new Date(Date.now() - age);
  utimesSync(lock(), at, at);
};
const ended = (): number => spawnSync(process.execPath, ['-e', '']).pid;

it('is taken by one, refused to the next with the number of the process, and gone when given back', () => {
  expect(takeLock(bench.folder)).toBe('taken');
  expect(takeLock(bench.folder)).toEqual({ by: process.pid });
  giveBack(bench.folder);
  expect(readdirSync(bench.folder)).toEqual([]);
});

describe('a lock that nobody holds', () => {
  it.each([
    ['of a process that has ended', () => putLock({ pid: ended() })],
    ['of a process whose number another has since', () => putLock({ start: '1' })],
    ['of another machine, a minute old', () => putLock({ host: 'ffffffff' }, 61_000)],
    [
      'of a system that does not say when processes began, a minute old',
      () => putLock({ start: '0' }, 61_000),
    ],
    [
      'in which nothing was written, two seconds old',
      () => {
        writeFileSync(lock(), '');
        utimesSync(lock(), 1, 1);
      },
    ],
  ])('%s is taken over at once', (_, put) => {
    put();
    expect(takeLock(bench.folder)).toBe('taken');
    expect(takeLock(bench.folder)).toEqual({ by: process.pid });
    giveBack(bench.folder);
    expect(readdirSync(bench.folder)).toEqual([]);
  });
});

describe('a lock that somebody may hold', () => {
  it.each([
    ['of another machine', () => putLock({ host: 'ffffffff' })],
    ['of a system that does not say when processes began', () => putLock({ start: '0' })],
    ['just made, with nothing written yet', () => writeFileSync(lock(), '')],
    ['of a process that lives, however old', () => putLock({}, 1e9)],
  ])('%s stays', (_, put) => {
    put();
    expect(takeLock(bench.folder)).not.toBe('taken');
    expect(readdirSync(bench.folder)).toEqual(['.fettle-lock']);
  });
});

it('waits for another to let go, and refuses where they do not', async () => {
  const other = join(bench.folder, 'other');
  mkdirSync(other);
  expect(takeLock(other)).toBe('taken');
  const refused = await holding([bench.folder, other], () => 'done', 60).catch((error: unknown) => error);
  expect(refused).toBeInstanceOf(RefusedFile);
  expect((refused as RefusedFile).problems[0]).toMatchObject({
    ...{ code: 'being_written', value: `process ${process.pid} is writing there` },
  });
  // What it could have had, it gave back: nobody holds one folder and waits for another.
  expect(existsSync(lock())).toBe(false);
  setTimeout(() => giveBack(other), 50);
  expect(await holding([bench.folder, other], () => 'done')).toBe('done');
  expect(readdirSync(bench.folder)).toEqual(['other']);
  expect(readdirSync(other)).toEqual([]);
});

// Each process adds one to a number in a file, again and again: without the lock some of the sums are lost. A killed holder is
// among them.
it('lets one at a time in where several processes press, one of which is killed', async () => {
  const counter = join(bench.folder, 'counter');
  writeFileSync(counter, '0');
  const source = `
    import { readFileSync, writeFileSync } from 'node:fs';
    import { holding } from ${JSON.stringify(new URL('../../src/cli/disk/holding.ts', import.meta.url).href)};
    for (let k = 0; k < 25; k++) await holding([${JSON.stringify(bench.folder)}], () => {
      const now = Number(readFileSync(${JSON.stringify(counter)}, 'utf8'));
      const until = performance.now() + 1;
      while (performance.now() < until);
      writeFileSync(${JSON.stringify(counter)}, String(now + 1));
    });`;
  const tsx = new URL('../../node_modules/tsx/dist/loader.mjs', import.meta.url).href;
  const run = (text: string) =>
    new Promise<number | null>((resolve) => {
      const child = spawn(process.execPath, ['--import', tsx, '--input-type=module', '-e', text], {
        stdio: 'ignore',
      });
      child.on('close', resolve);
    });
  const killed = source
    .replace('25', '1')
    .replace('writeFileSync(', "process.kill(process.pid, 'SIGKILL'); writeFileSync(");
  await Promise.all([run(source), run(killed), run(source)]);
  expect(readFileSync(counter, 'utf8')).toBe('50');
  // Where the killed one came last, its lock is still there for the next to take over.
  await holding([bench.folder], () => undefined, 100);
  expect(readdirSync(bench.folder)).toEqual(['counter']);
});
