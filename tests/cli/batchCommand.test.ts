import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import type { ResultFile } from '../../src/job/resultSchema.ts';
import { readStl } from '../output/readStl.ts';
import { bracket, stlOf } from './donorModel.ts';
import { command, contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const run = (...args: readonly string[]) => fettle(args, { cwd: bench.folder });
const inBench = (name: string) => join(bench.folder, name);

const open = JSON.parse(readFileSync(demoJob, 'utf8'));
/** A mouth without arms needs no finite elements, which are most of the work. */
const demo = { ...open, choices: { ...open.choices, mouth: 'closed' } };
const writeJob = (name: string, change: object = {}) =>
  writeFileSync(inBench(`${name}.job.json`), JSON.stringify({ ...demo, ...change }));
/** A part that fails: it softens. */
const hot = { material: 'PLA', surroundings: { temperature: '120 °C' } };
const lines = (text: string): readonly string[] => text.trimEnd().split('\n');
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

interface Told {
  readonly jobs: readonly { readonly file: string; readonly how: string; readonly result?: ResultFile }[];
  readonly summary: Readonly<Record<string, number>>;
}
/** What became of each job, by its name. */
const hows = (stdout: string): Record<string, string> =>
  Object.fromEntries(
    (JSON.parse(stdout) as Told).jobs.map(({ file, how }) => [file.replace('.job.json', ''), how]),
  );

describe('fettle make with several jobs', () => {
  it('gives byte for byte what the jobs give when made one by one', async () => {
    const names = families.map(({ id }) => id);
    for (const name of names)
      copyFileSync(
        new URL(`../../parts/${name}/demo.job.json`, import.meta.url),
        inBench(`${name}.job.json`),
      );
    const alone = workshop();
    const all = ['--3mf', '--json'];
    const singly: Awaited<ReturnType<typeof fettle>>[] = [];
    for (const name of names)
      singly.push(await fettle(['make', inBench(`${name}.job.json`), ...all], { cwd: alone.folder }));

    const { code, stdout, stderr } = await run('make', ...names.map((name) => `${name}.job.json`), ...all);
    expect(stderr).toBe('');
    expectFormat('batch', stdout);
    const { jobs, summary } = JSON.parse(stdout) as Told;
    expect(jobs.map(({ result }) => result)).toEqual(singly.map((one) => JSON.parse(one.stdout)));
    expect(code).toBe(Math.max(...singly.map((one) => one.code!)));
    const masses = jobs.map(({ result }) => result!.job.quantity * result!.print.mass);
    expect(summary).toMatchObject({ jobs: names.length, made: names.length, kept: 0, refused: 0, broke: 0 });
    expect(summary.mass).toBeCloseTo(
      masses.reduce((sum, mass) => sum + mass),
      9,
    );

    const files = readdirSync(join(alone.folder, 'out'));
    expect(files.length).toBeGreaterThanOrEqual(3 * names.length);
    expect(readdirSync(inBench('out'))).toEqual(files);
    for (const name of files)
      expect(sha256(readFileSync(inBench(`out/${name}`))), name).toBe(
        sha256(readFileSync(join(alone.folder, 'out', name))),
      );
    alone.clear();
  });

  it('goes on past jobs that are refused, says of them what they hear alone, and the worst makes the exit code', async () => {
    writeJob('fine', { choices: open.choices });
    writeJob('hot', hot);
    writeJob('wrong', { material: 'PTEG', readings: { ...demo.readings, barDiameter: ['1,2,3'] } });
    const bad = ['wrong.job.json', 'missing.job.json'];
    const alone = await Promise.all(bad.map((name) => run('make', name)));
    const { code, stdout, stderr } = await run(
      'make',
      'wrong.job.json',
      'fine.job.json',
      'hot.job.json',
      'missing.job.json',
    );
    expect(code).toBe(2);
    expect(stderr).toBe(alone.map((one) => one.stderr).join(''));
    expect(lines(stderr)).toHaveLength(3);
    expect(stdout).toMatch(/^4 jobs: 2 made, 2 refused, 1 with a finding that fails$/m);
    expect(stdout).toMatch(/^ {3}- {2}wrong +refused: \S+, and 1 more$/m);
    expect(stdout).toMatch(/^ {3}- {2}missing +refused: no such file or directory$/m);
    expect(stdout).toMatch(/^ {3}X {2}hot +[<>]? ?\d+ % +\d fails?\b.* g +\S.* made$/m);
    expect(stdout).toMatch(/^ {6}fine +[<>]? ?\d+ % +\d+ hold\b.* made$/m);
    expect(stdout).not.toMatch(/NaN|undefined|Infinity/);
    expect(stdout).not.toContain('\u001b');
    expect(readdirSync(inBench('out'))).toEqual(['fine.json', 'fine.stl', 'hot.json', 'hot.stl']);

    expect((await run('make', 'fine.job.json', 'hot.job.json')).code).toBe(3);
    expect((await run('make', 'fine.job.json', './fine.job.json', 'fine.job.json', '--json')).code).toBe(0);
  });

  it('keeps what is made and unchanged, and makes what is not', async () => {
    const printer = { ...demo.printer, name: 'printer 7' };
    writeFileSync(inBench('mine.printer.json'), JSON.stringify(printer));
    for (const name of ['spoilt', 'gone', 'reading']) writeJob(name);
    writeJob('profile', { printer: 'mine.printer.json' });
    writeFileSync(inBench('bracket.stl'), await stlOf(bracket));
    for (const name of ['model', 'refit'])
      writeFileSync(
        inBench(`${name}.job.json`),
        JSON.stringify({
          fettle: 1,
          family: 'donor',
          donor: { file: `${name}.stl`, changes: [{ axis: 'z', by: '-3.4' }] },
        }),
      );
    for (const name of ['model', 'refit']) copyFileSync(inBench('bracket.stl'), inBench(`${name}.stl`));
    const names = ['spoilt', 'gone', 'reading', 'profile', 'model', 'refit'];
    const all = ['make', ...names.map((name) => `${name}.job.json`), '--json', '--hands', '1'];
    const made = await run(...all);
    expect(made.stderr).toBe('');
    expect(new Set(Object.values(hows(made.stdout)))).toEqual(new Set(['made']));

    const before = contents(inBench('out'));
    const first = readFileSync(inBench('out/spoilt.stl'));
    const again = await run(...all);
    expect(new Set(Object.values(hows(again.stdout)))).toEqual(new Set(['kept']));
    expect(JSON.parse(again.stdout).jobs.map(({ result }: { result: unknown }) => result)).toEqual(
      JSON.parse(made.stdout).jobs.map(({ result }: { result: unknown }) => result),
    );
    expect(contents(inBench('out'))).toEqual(before);

    // One bit of the STL, one digit of a reading, one number of the profile, the model under its old name; and a file less.
    const spoilt = Buffer.from(first);
    spoilt[200]! ^= 1;
    writeFileSync(inBench('out/spoilt.stl'), spoilt);
    writeFileSync(inBench('out/gone.json'), '');
    writeJob('reading', { readings: { ...demo.readings, travel: ['3.83'] } });
    writeFileSync(
      inBench('mine.printer.json'),
      JSON.stringify({ ...printer, repeatability: printer.repeatability + 0.001 }),
    );
    writeFileSync(inBench('model.stl'), await stlOf(bracket, 1.01));
    const { stdout } = await run(...all);
    expect(hows(stdout)).toEqual({
      ...{ spoilt: 'made', gone: 'made', reading: 'made', profile: 'made' },
      ...{ model: 'made', refit: 'kept' },
    });
    expect(readFileSync(inBench('out/spoilt.stl'))).toEqual(first);

    const two = ['make', 'spoilt.job.json', 'gone.job.json', '--json', '--hands', '1'];
    expect(hows((await run(...two)).stdout)).toEqual({ spoilt: 'kept', gone: 'kept' });
    expect(hows((await run(...two, '--ascii')).stdout)).toEqual({ spoilt: 'made', gone: 'made' });
    expect(hows((await run(...two, '--ascii', '--again')).stdout)).toEqual({ spoilt: 'made', gone: 'made' });
  });

  it('when interrupted leaves whole files only, and goes on from there', async () => {
    const names = Array.from({ length: 8 }, (_, k) => `job${k}`);
    for (const [k, name] of names.entries()) writeJob(name, { title: `Clip ${k}` });
    const all = ['make', ...names.map((name) => `${name}.job.json`), '--hands', '2'];
    const child = spawn(process.execPath, [command, ...all], { cwd: bench.folder });
    let said = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    const closed = new Promise<NodeJS.Signals | null>((resolve) =>
      child.on('close', (_, signal) => resolve(signal)),
    );
    const watch = setInterval(() => {
      if (existsSync(inBench('out/job1.json'))) child.kill('SIGINT');
    }, 5);
    expect(await closed).toBe('SIGINT');
    clearInterval(watch);
    expect(said).toContain('the same command goes on from here');

    const left = readdirSync(inBench('out'));
    expect(left.length).toBeLessThan(2 * names.length);
    for (const name of left) {
      expect(name).toMatch(/^job\d+\.(stl|json)$/);
      const bytes = readFileSync(inBench(`out/${name}`));
      if (name.endsWith('.stl')) expect(readStl(new Uint8Array(bytes)).length).toBeGreaterThan(0);
      else {
        const { files } = JSON.parse(bytes.toString()) as ResultFile;
        for (const { path, sha256: said } of files) expect(sha256(readFileSync(inBench(path)))).toBe(said);
      }
    }
    const done = left.filter((name) => name.endsWith('.json')).length;
    const { stdout } = await run(...all);
    expect(stdout).toContain(`8 jobs: ${8 - done} made, ${done} kept as they were, none refused`);
    expect(readdirSync(inBench('out'))).toHaveLength(16);
  });
});

describe('refuses before anything is made', () => {
  const refused = async (args: readonly string[], said: RegExp) => {
    const before = contents(bench.folder);
    const { code, stdout, stderr } = await run('make', ...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(said);
    expect(lines(stderr)).toHaveLength(1);
    expect(contents(bench.folder)).toEqual(before);
  };

  it('two jobs of one name, also where only the case of letters differs', async () => {
    writeJob('Foot');
    writeJob('foot.');
    await refused(
      ['Foot.job.json', 'foot..job.json'],
      /^out: foot\.json: - .* by Foot\.job\.json and by foot\.\.job\.json; allowed: /,
    );
  });

  it('a job whose name is that of a part of another', async () => {
    const feet = JSON.parse(
      readFileSync(new URL('../../parts/case-foot/demo.job.json', import.meta.url), 'utf8'),
    );
    const each = { ...feet, choices: { ...feet.choices, feet: 'each' } };
    const heights = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'].map((id) => [id, ['9.03']]);
    writeJob('foot', { ...each, readings: { ...feet.readings, ...Object.fromEntries(heights) } });
    writeJob('foot-front-left');
    await refused(
      ['foot.job.json', 'foot-front-left.job.json'],
      /foot-front-left\.stl: .*foot\.job\.json and by foot-front-left/,
    );
  });

  it('a job that would write over what another is made from', async () => {
    writeFileSync(inBench('clip.stl'), await stlOf(bracket));
    writeJob('clip');
    writeFileSync(
      inBench('refit.job.json'),
      JSON.stringify({ fettle: 1, family: 'donor', donor: { file: 'clip.stl', changes: [] } }),
    );
    await refused(['clip.job.json', 'refit.job.json', '--out', '.'], /clip\.stl: would overwrite clip\.stl/);
  });

  it.each(['0', '1.5', '', '65'])('%j hands', async (hands) => {
    const { code, stderr } = await run('make', 'a.job.json', 'b.job.json', '--hands', hands);
    expect(code).toBe(2);
    expect(stderr).toContain('allowed: a whole number from 1 to 64');
  });
});

it('says once what the folder refuses, and makes no more for it', async () => {
  for (const name of ['a', 'b', 'c', 'd']) writeJob(name);
  writeFileSync(inBench('out'), 'a file');
  const { code, stdout, stderr } = await run('make', 'a.job.json', 'b.job.json', 'c.job.json', 'd.job.json');
  expect(code).toBe(2);
  expect(lines(stderr)).toHaveLength(1);
  expect(stderr).toMatch(/^out: --out: .*allowed: a folder that can be written to$/m);
  expect(stdout).toMatch(/^4 jobs: 0 made, 4 refused, none fails$/m);
  expect(statSync(inBench('out')).size).toBe('a file'.length);
});
