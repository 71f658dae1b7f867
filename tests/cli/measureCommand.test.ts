import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { command, contents, demoJob, fettle, workshop } from './fettle.ts';

let bench: ReturnType<typeof workshop>;
let job: string;
beforeEach(async () => {
  bench = workshop();
  job = join(bench.folder, 'my.job.json');
  await fettle(['new', 'stabiliser-clip', job]);
});
afterEach(() => bench.clear());

const readings = () => JSON.parse(readFileSync(job, 'utf8')).readings as Record<string, string[]>;
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));

it('takes a whole job from a pipe: numbers and Enter, nothing else', async () => {
  const names = Object.keys(readings());
  const { stdout: list } = await fettle(['measure', job]);
  expect(list).toContain(`1 of ${names.length}  BAR DIAMETER`);
  // As many as each sheet asks for: what the demo has read, over and over.
  const times = await askedTimes(names);
  const typed = names.flatMap((name) =>
    Array.from(
      { length: times[name]! },
      (_, k) => demo.readings[name][k % demo.readings[name].length] as string,
    ),
  );
  const { code, stdout, stderr } = await fettle(['measure', job], { input: `${typed.join('\r\n')}\r\n` });
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(Object.values(readings()).flat()).toEqual(typed);
  expect(stdout).toContain('every reading is there');
  expect(stdout).toContain(`next: fettle make ${job} --out out`);
  // A second time there is nothing to ask, whatever is typed.
  const before = readFileSync(job, 'utf8');
  expect((await fettle(['measure', job], { input: '9\n9\n' })).code).toBe(0);
  expect(readFileSync(job, 'utf8')).toBe(before);
});

/** How often the command asks for each reading, as its own prompts say. */
async function askedTimes(names: readonly string[]): Promise<Record<string, number>> {
  const { stdout } = await fettle(['measure', job], { input: '\n'.repeat(names.length) });
  const counts = [...stdout.matchAll(/^ +1 of (\d+) > $/gm)].map(([, count]) => Number(count));
  expect(counts).toHaveLength(names.length);
  return Object.fromEntries(names.map((name, k) => [name, counts[k]!]));
}

it('ends cleanly where the lines end, and says what is missing', async () => {
  const { code, stdout, stderr } = await fettle(['measure', job], { input: '1.60\n1,61' });
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(readings().barDiameter).toEqual(['1.60', '1,61']);
  expect(stdout).toMatch(/still to be read: .*socket width/);
  expect(stdout).toMatch(/fewer than asked: bar diameter \(2 of \d\)/);
  expect(stdout).toContain(`next: fettle measure ${job}`);
});

it('keeps everything else in the file as it was', async () => {
  const before = {
    ...JSON.parse(readFileSync(job, 'utf8')),
    note: 'keep  this [ 1 , 2 ] {\n x } as it is',
    readings: { barDiameter: [1.6], socketWidth: ['4.02 mm'] },
  };
  writeFileSync(job, `\uFEFF${JSON.stringify(before)}`);
  await fettle(['measure', job], { input: '1.61\nquit\n' });
  const after = JSON.parse(readFileSync(job, 'utf8'));
  expect(after).toEqual({ ...before, readings: { ...before.readings, barDiameter: [1.6, '1.61'] } });
});

it('has every reading on the disk before it asks for the next, so that a power cut loses none', async () => {
  const child = spawn(process.execPath, [command, 'measure', job]);
  const typed = ['1.60', '1.61', '1.62'];
  let said = '';
  const asked = (prompt: string) =>
    new Promise<void>((resolve) => {
      const look = () => {
        if (said.includes(prompt)) resolve();
      };
      child.stdout.on('data', look);
      look();
    });
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  for (const [k, text] of typed.entries()) {
    await asked(`      ${k + 1} of 5 > `);
    expect(readings().barDiameter).toEqual(typed.slice(0, k));
    child.stdin.write(`${text}\n`);
  }
  await asked('      4 of 5 > ');
  child.kill('SIGKILL');
  await new Promise((resolve) => child.on('close', resolve));
  expect(readings().barDiameter).toEqual(typed);
  expect(contents(bench.folder)).toHaveLength(1);
});

it('lets somebody else write into the job meanwhile', async () => {
  const child = spawn(process.execPath, [command, 'measure', job]);
  await new Promise((resolve) => child.stdout.once('data', resolve));
  writeFileSync(job, JSON.stringify({ ...JSON.parse(readFileSync(job, 'utf8')), note: 'written meanwhile' }));
  child.stdin.end('1.6\n');
  await new Promise((resolve) => child.on('close', resolve));
  expect(JSON.parse(readFileSync(job, 'utf8'))).toMatchObject({
    note: 'written meanwhile',
    readings: { barDiameter: ['1.6'] },
  });
});

it('says so when the job is gone, and that nothing more is saved', async () => {
  const child = spawn(process.execPath, [command, 'measure', job]);
  let complaint = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    complaint += text;
  });
  await new Promise((resolve) => child.stdout.once('data', resolve));
  rmSync(job);
  child.stdin.write('1.6\n');
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect(code).toBe(2);
  expect(complaint).toContain('no such file or directory');
  expect(contents(bench.folder)).toEqual([]);
});

describe('one reading alone', () => {
  it.each(['socketWidth', 'socket width', 'Socket-Width'])('is found as %s', async (name) => {
    await fettle(['measure', job, '--only', name], { input: '4.02\n4.03\nquit\n' });
    expect(Object.entries(readings()).filter(([, texts]) => texts.length > 0)).toEqual([
      ['socketWidth', ['4.02', '4.03']],
    ]);
  });

  it('proposes the near name', async () => {
    const { code, stderr } = await fettle(['measure', job, '--only', 'socketWith']);
    expect(code).toBe(2);
    expect(stderr).toContain('Did you mean socketWidth?');
  });
});

it('takes every reading once more when asked to', async () => {
  writeFileSync(
    job,
    JSON.stringify({ ...demo, readings: { ...demo.readings, barDiameter: ['1', '1', '1', '1', '1'] } }),
  );
  await fettle(['measure', job, '--again'], { input: '1.6\nquit\n' });
  expect(readings().barDiameter).toEqual(['1', '1', '1', '1', '1', '1.6']);
});

describe('refuses, and leaves the file alone', () => {
  it.each([
    ['a choice that is none', { choices: { mouth: 'opn' } }, 'choices.mouth'],
    ['callipers that cannot be', { callipers: { resolution: '7 mm' } }, 'callipers.resolution'],
    ['a field that is none', { redings: {} }, 'Did you mean readings?'],
    ['another version', { fettle: 2 }, 'newer Fettle'],
  ])('%s', async (_, change, said) => {
    const text = JSON.stringify({ ...JSON.parse(readFileSync(job, 'utf8')), ...change });
    writeFileSync(job, text);
    const { code, stderr } = await fettle(['measure', job], { input: '1.6\n' });
    expect(code).toBe(2);
    expect(stderr).toContain(said);
    expect(readFileSync(job, 'utf8')).toBe(text);
  });

  it('a folder', async () => {
    mkdirSync(join(bench.folder, 'd'));
    const { code, stderr } = await fettle(['measure', join(bench.folder, 'd')]);
    expect(code).toBe(2);
    expect(stderr).toContain('a folder - allowed: a job file');
  });
});
