// A disk that is full or nearly so, folders that take nothing, files that change or are something else: one line, exit code 2, and
// whatever was there is as it was.
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  appendFileSync,
  chmodSync,
  chownSync,
  closeSync,
  ftruncateSync,
  linkSync,
  mkdirSync,
  openSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { jobStore } from '../../src/cli/measure/jobStore.ts';
import { mustSpare } from '../../src/cli/mustSpare.ts';
import { readWhole } from '../../src/cli/readWhole.ts';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
import { writeTogether } from '../../src/cli/writeTogether.ts';
import { command, demoJob, fettle, workshop } from '../cli/fettle.ts';
import { differences, filesIn } from './fileSet.ts';
import { start } from './tampered.ts';

const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const small = readFileSync(new URL('../../parts/spacer/demo.job.json', import.meta.url));
const isRoot = process.getuid?.() === 0;
const PAGE = 4096;

/** Whoever may mount has a real small disk; for others writes are made to fail as on a full one. */
const mounts = isRoot && canMount();

function canMount(): boolean {
  const { folder, clear } = workshop();
  try {
    execFileSync('mount', ['-t', 'tmpfs', 'fettle', folder], { stdio: 'ignore' });
    execFileSync('umount', [folder], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  } finally {
    clear();
  }
}

/** Fills a disk but for so many pages. */
function fill(folder: string, free: number): void {
  const file = openSync(join(folder, 'filler'), 'w');
  let pages = 0;
  try {
    for (; ; pages++) writeSync(file, new Uint8Array(PAGE));
  } catch (error) {
    expect((error as NodeJS.ErrnoException).code).toBe('ENOSPC');
  }
  ftruncateSync(file, PAGE * (pages - free));
  closeSync(file);
}

interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command with a standard input, on a disk without room. */
async function withoutRoom(args: readonly string[], folder: string, input = ''): Promise<Ended> {
  if (mounts) return fettle(args, { cwd: folder, input });
  const child = start(args, folder, { below: folder, at: 1, act: 'fail', code: 'ENOSPC', ever: true });
  const said = { stdout: '', stderr: '' };
  for (const stream of ['stdout', 'stderr'] as const)
    child[stream]!.setEncoding('utf8').on('data', (text: string) => {
      said[stream] += text;
    });
  child.stdin!.on('error', () => {});
  child.stdin!.end(input);
  const [code] = await once(child, 'close');
  return { code: code as number | null, ...said };
}

describe(`a full disk: ${mounts ? 'a tmpfs of 16 pages' : 'writes that are made to fail'}`, () => {
  let bench: ReturnType<typeof workshop>;
  let disk: string;
  beforeAll(() => {
    bench = workshop();
    disk = join(bench.folder, 'disk');
    mkdirSync(disk);
    if (mounts) execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${16 * PAGE}`, 'fettle', disk]);
    writeFileSync(join(disk, 'my.job.json'), JSON.stringify({ ...demo, printer: 'my.printer.json' }));
    writeFileSync(join(disk, 'my.printer.json'), JSON.stringify(demo.printer));
    writeFileSync(join(disk, 'small.job.json'), small);
    if (mounts) fill(disk, 0);
  });
  afterAll(() => {
    if (mounts) execFileSync('umount', [disk]);
    bench.clear();
  });

  it.each([
    ['measure', ['measure', 'my.job.json', '--only', 'barDiameter'], 'my.job.json: readings.barDiameter'],
    ['trial', ['trial', 'my.job.json', '--felt', 'bar=right'], 'my.job.json'],
    ['make', ['make', 'small.job.json', '--out', '.'], '.: --out'],
    ['new', ['new', 'spacer', 'other.job.json'], 'other.job.json'],
  ])('%s says so and leaves all as it was', async (_, args, about) => {
    const before = filesIn(disk);
    const { code, stderr } = await withoutRoom(args, disk, '1.6\n');
    expect(stderr).toBe(`${about}: no space left on device - allowed: ${stderr.split('allowed: ')[1]}`);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(code).toBe(2);
    expect(differences(filesIn(disk), before)).toEqual([]);
  });

  // A write that finds room for a part of its bytes takes that part and is content.
  it.runIf(mounts)('nearly full, nothing is cut off: pages from none to enough', async () => {
    const old = filesIn(disk);
    const bytes = new Uint8Array(2 * PAGE + 1).fill(65);
    const taken: boolean[] = [];
    for (let free = 0; free <= 12; free++) {
      fill(disk, free);
      const files = ['a.stl', 'my.printer.json'].map((name) => ({ name, bytes }));
      const error = await writeTogether(disk, files).catch((thrown: unknown) => thrown);
      const now = new Map([...filesIn(disk)].filter(([name]) => name !== 'filler'));
      if (error) {
        expect(error).toBeInstanceOf(RefusedFile);
        expect(differences(now, new Map([...old].filter(([name]) => name !== 'filler')))).toEqual([]);
      } else {
        expect(now.get('a.stl')).toEqual(Buffer.from(bytes));
        expect(now.get('my.printer.json')).toEqual(Buffer.from(bytes));
      }
      taken.push(error === undefined);
      if (!error) break;
    }
    // Two files of three pages each at least.
    expect(taken.length).toBeGreaterThan(6);
    expect(taken).toEqual([...Array(taken.length - 1).fill(false), true]);
  });
});

describe('folders that take nothing', () => {
  let bench: ReturnType<typeof workshop>;
  let folder: string;
  beforeEach(() => {
    bench = workshop();
    folder = join(bench.folder, 'closed');
    mkdirSync(folder);
    writeFileSync(join(folder, 'my.job.json'), JSON.stringify(demo));
    chmodSync(bench.folder, 0o755);
    chmodSync(folder, 0o555);
  });
  afterEach(() => {
    chmodSync(folder, 0o755);
    bench.clear();
  });

  /** Permissions do not stop root, so root runs the command as nobody. */
  const asNobody = async (args: readonly string[], input = ''): Promise<Ended> => {
    const nobody = isRoot ? { uid: 65534, gid: 65534 } : {};
    const child = spawn(process.execPath, [command, ...args], { cwd: folder, ...nobody });
    const said = { stdout: '', stderr: '' };
    for (const stream of ['stdout', 'stderr'] as const)
      child[stream].setEncoding('utf8').on('data', (text: string) => {
        said[stream] += text;
      });
    child.stdin.on('error', () => {});
    child.stdin.end(input);
    const [code] = await once(child, 'close');
    return { code: code as number | null, ...said };
  };

  it.each([
    ['measure', ['measure', 'my.job.json', '--only', 'barDiameter'], 'my.job.json: readings.barDiameter'],
    ['new', ['new', 'spacer', 'other.job.json'], 'other.job.json'],
  ])('%s says so', async (_, args, about) => {
    const before = filesIn(folder);
    const { code, stderr } = await asNobody(args, '1.6\n');
    expect(stderr).toMatch(/^[^\n]*: permission denied - allowed: [^\n]*\n$/);
    expect(stderr.startsWith(`${about}: `)).toBe(true);
    expect(code).toBe(2);
    expect(differences(filesIn(folder), before)).toEqual([]);
  });

  it('are no hindrance to who only reads', async () => {
    const { code, stderr } = await asNobody(['trial', 'my.job.json', '--history']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  });
});

describe('files that are not what they seem', () => {
  let bench: ReturnType<typeof workshop>;
  beforeEach(() => {
    bench = workshop();
    writeFileSync(inBench('my.job.json'), JSON.stringify(demo));
  });
  afterEach(() => bench.clear());
  const inBench = (name: string) => join(bench.folder, name);
  const bytes = new TextEncoder().encode('x');
  const codes = async (work: Promise<unknown>) => {
    const error = await work.catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(RefusedFile);
    return (error as RefusedFile).problems.map(({ code, value }) => [code, value]);
  };

  it('one that is written into while it is read is refused', async () => {
    const path = inBench('long.stl');
    writeFileSync(path, new Uint8Array(32 * 1024 * 1024));
    let reading = true;
    const read = readWhole(path, { what: 'a model', largest: 2 ** 30 }).finally(() => {
      reading = false;
    });
    const write = (): void => {
      appendFileSync(path, 'x');
      if (reading) setImmediate(write);
    };
    setImmediate(write);
    expect(await read).toMatchObject({ code: 'changed_while_read', value: 'changed while it was read' });
    expect(await readWhole(path, { what: 'a model', largest: 2 ** 30 })).toBeInstanceOf(Uint8Array);
  });

  it('one that vanishes takes no reading, and says so', async () => {
    const store = jobStore(inBench('my.job.json'));
    await store.append('barDiameter', '1.6');
    rmSync(inBench('my.job.json'));
    expect(await codes(store.append('barDiameter', '1.7'))).toEqual([
      ['system_refused', 'no such file or directory'],
    ]);
    expect(filesIn(bench.folder).size).toBe(0);
  });

  it('a job behind a link is changed where it lies, and the link stays', async () => {
    mkdirSync(inBench('far'));
    writeFileSync(inBench('far/real.job.json'), JSON.stringify(demo));
    symlinkSync('far/real.job.json', inBench('link.job.json'));
    await jobStore(inBench('link.job.json')).append('barDiameter', '1.6');
    expect(readlinkSync(inBench('link.job.json'))).toBe('far/real.job.json');
    expect(JSON.parse(readFileSync(inBench('far/real.job.json'), 'utf8')).readings.barDiameter).toContain(
      '1.6',
    );
  });

  it.each([
    ['a link to the job', symlinkSync, 'output_over_input', 'would overwrite'],
    ['the job under a second name', linkSync, 'output_over_input', 'would overwrite'],
    ['a folder', (_: string, to: string) => mkdirSync(to), 'output_in_the_way', 'a folder of that name'],
  ])('an output whose name is that of %s is not written', async (_, put, code, said) => {
    const [job, out] = [inBench('my.job.json'), inBench('out')];
    mkdirSync(out);
    put(job, join(out, 'my.stl'));
    const before = filesIn(bench.folder);
    const write = async () => {
      await mustSpare([job], out, ['my.json', 'my.stl']);
      await writeTogether(out, [
        { name: 'my.json', bytes },
        { name: 'my.stl', bytes },
      ]);
    };
    expect(await codes(write())).toEqual([[code, expect.stringContaining(said)]]);
    expect(differences(filesIn(bench.folder), before)).toEqual([]);
  });

  it('names of 255 letters are written, longer ones and longer paths are refused', async () => {
    // The most that ext4, APFS and NTFS take.
    const longest = `${'n'.repeat(251)}.stl`;
    await writeTogether(bench.folder, [{ name: longest, bytes }]);
    expect(filesIn(bench.folder).has(longest)).toBe(true);
    const folder = inBench(Array(30).fill('d'.repeat(200)).join('/'));
    const refused = [['system_refused', 'name too long']];
    expect(await codes(writeTogether(bench.folder, [{ name: `n${longest}`, bytes }]))).toEqual(refused);
    expect(await codes(writeTogether(folder, [{ name: 'a.stl', bytes }]))).toEqual(refused);
  });

  it('keep their mode, and their owner where root writes', async () => {
    chmodSync(inBench('my.job.json'), 0o640);
    if (isRoot) chownSync(inBench('my.job.json'), 65534, 65534);
    await jobStore(inBench('my.job.json')).append('barDiameter', '1.6');
    const { mode, uid } = statSync(inBench('my.job.json'));
    expect(mode & 0o777).toBe(0o640);
    expect(uid).toBe(isRoot ? 65534 : process.getuid?.());
  });
});

it.runIf(process.platform === 'linux')('what cannot be said is told in one line', async () => {
  const full = openSync('/dev/full', 'w');
  const child = spawn(process.execPath, [command, 'families'], { stdio: ['ignore', full, 'pipe'] });
  let stderr = '';
  child.stderr!.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  const [code] = await once(child, 'close');
  expect(stderr).toBe(
    'fettle: standard output: no space left on device - allowed: a place for what it says\n',
  );
  expect(code).toBe(2);
});
