// What a process that was killed while it wrote leaves behind, made by hand here: brought to its end or taken away, and nothing else.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chownSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { identityOf } from '../../src/cli/disk/identity.ts';
import { thisProcess } from '../../src/cli/disk/processMark.ts';
import { settled } from '../../src/cli/disk/settled.ts';
import { writeTogether } from '../../src/cli/writeTogether.ts';
import { workshop } from '../cli/fettle.ts';

let bench: ReturnType<typeof workshop>;
let folder: string;
beforeEach(() => {
  bench = workshop();
  folder = join(bench.folder, 'out');
  mkdirSync(folder);
});
afterEach(() => bench.clear());

/** The number of a process that has just ended. */
const ended = (): number => spawnSync(process.execPath, ['-e', '']).pid;
const host = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
const idOf = (pid: number, start = '1') => `${host}-${pid}-${start}-0123abcd`;
const put = (name: string, text: string, at = folder) => writeFileSync(join(at, name), text);
const text = (name: string, at = folder) => readFileSync(join(at, name), 'utf8');
const write = () => writeTogether(folder, [{ name: 'b.stl', bytes: new TextEncoder().encode('b') }]);

describe('what was not decided yet', () => {
  it('is taken away with the next writing, and the old files stay', async () => {
    const id = idOf(ended());
    put('a.stl', 'old');
    for (const kind of ['0.part', '0.old', 'plan', 'see']) put(`.fettle-${id}.${kind}`, '.');
    await write();
    expect(readdirSync(folder).sort()).toEqual(['a.stl', 'b.stl']);
    expect(text('a.stl')).toBe('old');
  });

  it('stays while its process lives, or where it is of another machine and fresh', async () => {
    const child = spawn(process.execPath, ['-e', 'setTimeout(() => {}, 60000)']);
    try {
      const start = readFileSync(`/proc/${child.pid}/stat`, 'latin1').split(') ')[1]!.split(' ')[19];
      const names = [`.fettle-${idOf(child.pid!, start)}.0.part`, `.fettle-ffffffff-1-1-0123abcd.0.part`];
      for (const name of names) put(name, 'half');
      await write();
      expect(readdirSync(folder).sort()).toEqual([...names, 'b.stl'].sort());
      // A day later nobody comes back for it.
      utimesSync(join(folder, names[1]!), new Date(), new Date(Date.now() - 25 * 60 * 60 * 1000));
      await write();
      expect(readdirSync(folder).sort()).toEqual([names[0], 'b.stl']);
    } finally {
      child.kill('SIGKILL');
    }
  });

  it('goes where another process has the number of the dead one since', async () => {
    put(`.fettle-${idOf(process.pid, '1')}.0.part`, 'half');
    expect(thisProcess.start).not.toBe('1');
    await write();
    expect(readdirSync(folder)).toEqual(['b.stl']);
  });

  it('leaves alone what only looks like it', async () => {
    const names = ['.fettle-notes', '.fettle-12345678-1-1-0123abcd.part', '.b.stl.0123456789ab', '.fettle'];
    for (const name of names) put(name, 'mine');
    await write();
    expect(readdirSync(folder).sort()).toEqual([...names, 'b.stl'].sort());
  });
});

describe('what was decided', () => {
  let id: string;
  let below: string;
  /** Two files in two folders, the first of them renamed already when the process was killed. */
  beforeEach(() => {
    id = idOf(ended());
    below = join(folder, 'below');
    mkdirSync(below);
    put('my.job.json', 'new job');
    put('my.printer.json', 'old printer', below);
    put(`.fettle-${id}.1.part`, 'new printer', below);
    put(`.fettle-${id}.see`, '..', below);
    put(
      `.fettle-${id}.commit`,
      JSON.stringify({ files: [planned('.', 0, 'my.job.json'), planned('below', 1, 'my.printer.json')] }),
    );
  });
  const planned = (at: string, k: number, name: string) => ({
    ...{ folder: at, part: `.fettle-${id}.${k}.part`, name, was: identityOf(join(folder, at, name)) },
  });

  it.each(['.', 'below'])('is brought to its end by who looks into %s', async (at) => {
    await settled(join(folder, at));
    expect(text('my.job.json')).toBe('new job');
    expect(text('my.printer.json', below)).toBe('new printer');
    expect(readdirSync(folder).sort()).toEqual(['below', 'my.job.json']);
    expect(readdirSync(below)).toEqual(['my.printer.json']);
  });

  it('gives way to what somebody has written since', async () => {
    put('my.printer.json', 'by hand, since', below);
    await settled(folder);
    expect(text('my.printer.json', below)).toBe('by hand, since');
    expect(readdirSync(folder).sort()).toEqual(['below', 'my.job.json']);
    await settled(below);
    expect(readdirSync(below)).toEqual(['my.printer.json']);
  });

  it('reaches no file but its own, whatever a plan says', async () => {
    put('victim', 'mine', bench.folder);
    put('part', 'theirs', bench.folder);
    const theirs = [
      { folder: '..', part: 'part', name: 'victim', was: identityOf(join(bench.folder, 'victim')) },
      {
        folder: '.',
        part: `.fettle-${id}.2.part`,
        name: '../victim',
        was: identityOf(join(bench.folder, 'victim')),
      },
    ];
    put(`.fettle-${id}.2.part`, 'theirs');
    put(`.fettle-${id}.commit`, JSON.stringify({ files: theirs }));
    await settled(folder);
    expect(text('victim', bench.folder)).toBe('mine');
  });

  it.runIf(process.getuid?.() === 0)('is not done for another user', async () => {
    const names = [
      join(folder, `.fettle-${id}.commit`),
      join(below, `.fettle-${id}.1.part`),
      join(below, `.fettle-${id}.see`),
    ];
    for (const name of names) chownSync(name, 65534, 65534);
    await settled(folder);
    expect(text('my.printer.json', below)).toBe('old printer');
  });
});

it('gives back what has its name already where a later file cannot take its own', async () => {
  // The third name is too long, which shows only when it is taken.
  put('a.stl', 'old');
  linkSync(join(folder, 'a.stl'), join(bench.folder, 'witness'));
  const files = ['a.stl', 'new.stl', `${'n'.repeat(300)}.stl`].map((name) => ({
    name,
    bytes: new TextEncoder().encode('x'),
  }));
  await expect(writeTogether(folder, files)).rejects.toThrow(/folder that can be written to/);
  expect(readdirSync(folder)).toEqual(['a.stl']);
  expect(text('a.stl')).toBe('old');
});
