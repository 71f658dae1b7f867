// Every step on the disk is made to fail in turn, as a full disk, a broken one or a forbidden folder would.
import * as fs from 'node:fs';
import { constants } from 'node:os';
import { join, resolve, sep } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
import { writeNew } from '../../src/cli/writeNew.ts';
import { writeEverywhere } from '../../src/cli/writeTogether.ts';
import { workshop } from '../cli/fettle.ts';
import { differences, type FileSet, filesIn } from './fileSet.ts';

const fault = vi.hoisted(() => ({ below: '', at: 0, code: '', step: 0 }));

vi.mock('node:fs', async (original) => {
  const real = await original<typeof fs>();
  const files = new Map<number, string>();
  const step = (what: string, path: string): void => {
    if (fault.below === '' || !resolve(path).startsWith(fault.below + sep)) return;
    if (++fault.step !== fault.at) return;
    const errno = -constants.errno[fault.code as 'ENOSPC'];
    throw Object.assign(new Error(fault.code), { code: fault.code, errno, syscall: what });
  };
  const stepping =
    <A extends readonly unknown[], R>(what: string, work: (...args: A) => R) =>
    (...args: A): R => {
      step(what, String(args[0]));
      return work(...args);
    };
  return {
    ...real,
    renameSync: stepping('rename', real.renameSync),
    linkSync: stepping('link', real.linkSync),
    chmodSync: stepping('chmod', real.chmodSync),
    chownSync: stepping('chown', real.chownSync),
    openSync: (path: string, ...rest: [string]) => {
      if (rest[0] !== 'r') step('open', path);
      const file = real.openSync(path, ...rest);
      files.set(file, path);
      return file;
    },
    writeSync: (file: number, bytes: Uint8Array, from = 0) => {
      step('write', files.get(file)!);
      // A few bytes go at a time, as on a disk where room is short.
      return typeof bytes === 'string'
        ? real.writeSync(file, bytes)
        : real.writeSync(file, bytes, from, Math.min(9, bytes.length - from));
    },
    fsyncSync: (file: number) => {
      // Left out when it does not fail: nobody cuts the current here, and it takes the most time.
      step('sync', files.get(file)!);
    },
  };
});

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => {
  fault.below = '';
  bench.clear();
});

const bytes = (text: string) => new TextEncoder().encode(text);

/** Does `work` again and again, another step failing each time, until none is left to fail. Gives how often it was refused. */
async function failEachStep(
  code: string,
  lay: () => void,
  work: () => Promise<void>,
  check: (refused: boolean, before: FileSet) => void,
): Promise<{ readonly refused: number; readonly steps: number }> {
  let refused = 0;
  for (let at = 1; ; at++) {
    fs.rmSync(bench.folder, { recursive: true });
    fs.mkdirSync(bench.folder);
    lay();
    const before = filesIn(bench.folder);
    Object.assign(fault, { below: bench.folder, at, code, step: 0 });
    const error = await work().then(
      () => undefined,
      (thrown: unknown) => thrown,
    );
    fault.below = '';
    if (error !== undefined) {
      expect(error).toBeInstanceOf(RefusedFile);
      expect((error as RefusedFile).problems).toHaveLength(1);
      refused++;
    }
    check(error !== undefined, before);
    if (fault.step < at) return { refused, steps: at - 1 };
  }
}

it.each(['ENOSPC', 'EIO', 'EACCES'])(
  'several files in two folders come whole and together or not at all: %s',
  async (code) => {
    const files = ['out/a.stl', 'out/b.json', 'my.job.json'].map((name) => ({
      ...{
        folder: join(bench.folder, name, '..'),
        name: name.split('/').at(-1)!,
        bytes: bytes(`new ${name}`),
      },
    }));
    const lay = () => {
      fs.mkdirSync(join(bench.folder, 'out'));
      fs.writeFileSync(join(bench.folder, 'out/a.stl'), 'old a');
      fs.writeFileSync(join(bench.folder, 'my.job.json'), 'old job');
    };
    const { refused, steps } = await failEachStep(
      code,
      lay,
      () => writeEverywhere(files),
      (failed, before) => {
        const now = filesIn(bench.folder);
        if (failed) expect(differences(now, before)).toEqual([]);
        else {
          expect([...now.keys()].sort()).toEqual(['my.job.json', 'out/a.stl', 'out/b.json']);
          for (const [name, content] of now) expect(content.toString()).toBe(`new ${name}`);
        }
      },
    );
    // Modes, owners and the old files kept for taking back are as well done without; all else counts.
    expect(refused).toBeGreaterThan(20);
    expect(steps).toBeGreaterThan(refused);
  },
);

it('a new file comes whole or not at all', async () => {
  const path = join(bench.folder, 'my.job.json');
  const { refused } = await failEachStep(
    'ENOSPC',
    () => {},
    () => writeNew(path, 'a job of more than nine letters'),
    (failed) => {
      const now = [...filesIn(bench.folder)].map(([name, content]) => [name, content.toString()]);
      expect(now).toEqual(failed ? [] : [['my.job.json', 'a job of more than nine letters']]);
    },
  );
  expect(refused).toBeGreaterThan(6);
});
