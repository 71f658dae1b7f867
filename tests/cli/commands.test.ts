import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { formatNames } from '../../src/job/formats/names.ts';
import { contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat, validator } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const here = () => ({ cwd: bench.folder });

describe('fettle', () => {
  it('says its version, that of the package', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    expect(await fettle(['--version'])).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });

  it('lists its commands', async () => {
    const { code, stdout } = await fettle(['--help']);
    expect(code).toBe(0);
    for (const command of ['families', 'sheet', 'new', 'measure', 'make', 'check', 'schema']) {
      expect(stdout).toMatch(new RegExp(`^  ${command} `, 'm'));
    }
  });

  it.each([
    [['mesure'], 'Did you mean measure?'],
    [['make', 'x.json', '--oot', 'o'], 'Did you mean --out?'],
    [['make'], "missing required argument 'job'"],
    [['check', 'a', 'b'], 'too many arguments'],
    [['schema', 'jobb'], 'Allowed choices are job, printer, result'],
  ])('refuses %j and says why', async (args, said) => {
    const { code, stdout, stderr } = await fettle(args, here());
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain(said);
    expect(contents(bench.folder)).toEqual([]);
  });
});

describe('families', () => {
  it('lists every folder under parts, one line each', async () => {
    const { stdout } = await fettle(['families']);
    const folders = readdirSync(new URL('../../parts', import.meta.url), { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => name);
    const lines = stdout.trimEnd().split('\n');
    expect(lines.map((line) => line.split(' ')[0]).sort()).toEqual(folders.sort());
    for (const line of lines) expect(line).toMatch(/^\S+ {2,}\S.{10,}$/);
  });

  it('lists them as JSON', async () => {
    const { stdout } = await fettle(['families', '--json']);
    expectFormat('families', stdout);
    const list = JSON.parse(stdout);
    expect(list).toContainEqual(expect.objectContaining({ id: 'stabiliser-clip', version: 1 }));
  });
});

describe('new', () => {
  it('writes a job that its own schema accepts, and names the next step', async () => {
    const { code, stdout } = await fettle(
      ['new', 'stabiliser-clip', 'my.job.json', '--title', 'Left [ end ] "A"', '--material', 'petg'],
      here(),
    );
    expect(code).toBe(0);
    expect(stdout).toContain('fettle measure my.job.json');
    const job = JSON.parse(readFileSync(join(bench.folder, 'my.job.json'), 'utf8'));
    expect(job).toMatchObject({ fettle: 1, family: 'stabiliser-clip', material: 'PETG' });
    expect(Object.values(job.readings).flat()).toEqual([]);
    const valid = validator((await fettle(['schema', 'job'])).stdout);
    expect(valid(job), JSON.stringify(valid.errors)).toBe(true);
    expect(contents(bench.folder)).toHaveLength(1);
  });

  it('never overwrites', async () => {
    writeFileSync(join(bench.folder, 'my.job.json'), 'mine');
    const { code, stderr } = await fettle(['new', 'stabiliser-clip', 'my.job.json'], here());
    expect(code).toBe(2);
    expect(stderr).toBe('my.job.json: exists already - allowed: a new name\n');
    expect(contents(bench.folder)).toEqual(['my.job.json 4']);
  });

  it.each([
    [['stabilizer-clip', 'x.json'], 'Did you mean stabiliser-clip?'],
    [['stabiliser-clip', 'x.json', '--material', 'PTEG'], 'Did you mean PETG?'],
    [['stabiliser-clip', 'x.json', '--title', 'x'.repeat(201)], 'title'],
    [['stabiliser-clip', 'missing/x.json'], 'no such file or directory'],
    [['stabiliser-clip', '/proc/x.json'], '/proc/x.json'],
  ])('refuses %j', async (args, said) => {
    const { code, stderr } = await fettle(['new', ...args], here());
    expect(code).toBe(2);
    expect(stderr).toContain(said);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(contents(bench.folder)).toEqual([]);
  });
});

describe('schema', () => {
  it('writes all of them where a folder is named, the same as it prints', async () => {
    expect((await fettle(['schema', '--out', 'schemas'], here())).code).toBe(0);
    const written = (name: string) =>
      readFileSync(join(bench.folder, 'schemas', `${name}.schema.json`), 'utf8');
    for (const name of Object.keys(formatNames)) expect(() => validator(written(name)), name).not.toThrow();
    for (const name of ['job', 'inspection'])
      expect(written(name)).toBe((await fettle(['schema', name])).stdout);
  });

  it('accepts the demo job', async () => {
    const valid = validator((await fettle(['schema', 'job'])).stdout);
    expect(valid(JSON.parse(readFileSync(demoJob, 'utf8'))), JSON.stringify(valid.errors)).toBe(true);
  });
});

describe('sheet', () => {
  it.each([
    [['stabiliser-clip'], 'stabiliser-clip.sheet.html'],
    [[demoJob], 'demo.sheet.html'],
    [['stabiliser-clip', '--out', 'page.html'], 'page.html'],
    [['stabiliser-clip', '--out', 'pages/'], 'pages/stabiliser-clip.sheet.html'],
  ])('%j writes %s and says so', async (args, path) => {
    const { code, stdout, stderr } = await fettle(['sheet', ...args], here());
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain(`wrote ${path}`);
    const page = readFileSync(join(bench.folder, path), 'utf8');
    expect(page).toMatch(/^<!doctype html>/i);
    expect(page).toContain('<svg');
  });

  it.each([
    ['stabiliser-clop', 'Did you mean stabiliser-clip?'],
    ['missing.job.json', 'no such file or directory'],
    ['folder/', 'no such file or directory'],
  ])('refuses %s', async (part, said) => {
    const { code, stderr } = await fettle(['sheet', part], here());
    expect(code).toBe(2);
    expect(stderr).toContain(said);
    expect(contents(bench.folder)).toEqual([]);
  });
});
