import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ResultFile } from '../../src/job/resultSchema.ts';
import { volumeOf } from '../output/meshes.ts';
import { readStl } from '../output/readStl.ts';
import { lens, stlOf } from './donorModel.ts';
import { contents, demoJob, fettle, workshop } from './fettle.ts';
import { validator } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const here = () => ({ cwd: bench.folder });
const inBench = (name: string) => join(bench.folder, name);

const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const writeJob = (name: string, change: object = {}) =>
  writeFileSync(inBench(name), JSON.stringify({ ...demo, ...change }));
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const expectedCode = ({ findings }: ResultFile) =>
  findings.some(({ verdict }) => verdict === 'fails') ? 3 : 0;

describe('fettle make --json', () => {
  it('keeps its contract: one JSON object, the files it names, the exit code its findings ask for', async () => {
    const { code, stdout, stderr } = await fettle(['make', demoJob, '--out', 'out', '--json'], here());
    expect(stderr).toBe('');
    const result = JSON.parse(stdout) as ResultFile;
    const valid = validator((await fettle(['schema', 'result'])).stdout);
    expect(valid(result), JSON.stringify(valid.errors)).toBe(true);
    expect(code).toBe(expectedCode(result));

    expect(contents(bench.folder).map((entry) => entry.split(' ')[0])).toEqual([
      'out',
      'out/demo.json',
      'out/demo.stl',
    ]);
    expect(readFileSync(inBench('out/demo.json'), 'utf8')).toBe(stdout);
    expect(result.files).toHaveLength(1);
    const [file] = result.files;
    const bytes = new Uint8Array(readFileSync(inBench(file!.path)));
    expect(file).toEqual({
      path: 'out/demo.stl',
      kind: 'stl',
      sha256: sha256(bytes),
      triangles: result.print.triangles,
    });
    expect(bytes.length).toBe(84 + 50 * file!.triangles!);

    // The mesh in the file is the part the numbers are about: its volume, and its place on the bed.
    const triangles = readStl(bytes);
    expect(volumeOf(triangles)).toBeCloseTo(result.print.volume, 3);
    const corners = triangles.flatMap(({ corners }) => corners);
    for (const k of [0, 1, 2] as const) {
      const along = corners.map((corner) => corner[k]);
      expect(Math.min(...along)).toBeCloseTo(0, 5);
      expect(Math.max(...along)).toBeCloseTo(result.print.extents[k], 4);
    }
    const header = new TextDecoder().decode(bytes.subarray(0, 80));
    expect(header).toContain(', mm, ');
    expect(header).toContain(result.job.hash.slice(0, 32));
  });

  it.each([
    ['0 where nothing fails', {}, 0],
    [
      '3 where something does: the part softens',
      { material: 'PLA', surroundings: { temperature: '120 °C' } },
      3,
    ],
  ])('ends with %s, and writes the files either way', async (_, change, expected) => {
    writeJob('my.job.json', change);
    const { code, stdout } = await fettle(['make', 'my.job.json', '--json'], here());
    expect(code).toBe(expected);
    expect(expectedCode(JSON.parse(stdout))).toBe(expected);
    expect(contents(bench.folder).filter((entry) => entry.startsWith('out/'))).toHaveLength(2);
  });

  it('gives the same bytes for the same job', async () => {
    const made = async (folder: string) => {
      await fettle(['make', demoJob, '--out', folder], here());
      return sha256(readFileSync(inBench(join(folder, 'demo.stl'))));
    };
    expect(await made('one')).toBe(await made('two'));
  });

  it('writes what else is asked for, lists it, and leaves the STL as it is', async () => {
    const plain = JSON.parse((await fettle(['make', demoJob, '--json'], here())).stdout) as ResultFile;
    const others = ['--3mf', '--drawing', '--report'];
    const { code, stdout } = await fettle(['make', demoJob, '--json', ...others], here());
    const result = JSON.parse(stdout) as ResultFile;
    expect(code).toBe(expectedCode(result));
    expect(result.files.map(({ path, kind }) => `${kind} ${path}`)).toEqual([
      'stl out/demo.stl',
      '3mf out/demo.3mf',
      'drawing out/demo.svg',
      'report out/demo.html',
    ]);
    expect({ ...result, files: [result.files[0]] }).toEqual(plain);
    for (const { path, sha256: said } of result.files) expect(sha256(readFileSync(inBench(path)))).toBe(said);
    const begins = (name: string) =>
      readFileSync(inBench(`out/${name}`))
        .subarray(0, 20)
        .toString('latin1');
    // What tells the formats: a zip (APPNOTE 4.3.7), an SVG and an HTML page.
    expect(begins('demo.3mf').startsWith('PK\u0003\u0004')).toBe(true);
    expect(begins('demo.svg')).toMatch(/^<(\?xml|svg)/);
    expect(begins('demo.html')).toMatch(/^<!doctype html>/i);
  });

  it('writes the same triangles as text when asked to', async () => {
    await fettle(['make', demoJob, '--out', 'b'], here());
    await fettle(['make', demoJob, '--out', 't', '--ascii'], here());
    const [binary, text] = ['b', 't'].map(
      (folder) => new Uint8Array(readFileSync(inBench(`${folder}/demo.stl`))),
    );
    expect(new TextDecoder().decode(text!.subarray(0, 6))).toBe('solid ');
    expect(readStl(text!).map(({ corners }) => corners)).toEqual(
      readStl(binary!).map(({ corners }) => corners),
    );
  });
});

describe('fettle make', () => {
  it('tells a person: will it fit, how likely, what limits it, what is wrong, what was written', async () => {
    const { stdout } = await fettle(['make', demoJob], here());
    expect(stdout.split('\n')[0]).toMatch(
      new RegExp(`^${demo.title} - ${demo.quantity} off - ${demo.material}, .*calibrated`),
    );
    expect(stdout).toMatch(/^ {2}fits first time {2}[<>]? ?\d+ % +doubt: /m);
    expect(stdout).toMatch(/^ {2}meets \(mm\) +machine +draw +prints at +clearance +window +chance$/m);
    expect(stdout).toMatch(/^ {2}findings {2}\d+ hold/m);
    expect(stdout).toContain('  wrote out/demo.stl\n  wrote out/demo.json\n');
    expect(stdout).not.toContain('\u001b');
    expect(stdout).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('takes the printer profile that lies beside the job', async () => {
    const profile = await printerProfile();
    writeFileSync(inBench('mine.printer.json'), JSON.stringify({ ...profile, name: 'printer 7' }));
    writeJob('my.job.json', { printer: 'mine.printer.json' });
    writeJob('inline.job.json', { printer: { ...profile, name: 'printer 7' } });
    const [named, inline] = await Promise.all(
      ['my', 'inline'].map(async (name) =>
        JSON.parse((await fettle(['check', `${name}.job.json`, '--json'], here())).stdout),
      ),
    );
    expect(named.job.printer).toBe('printer 7');
    expect(named).toEqual(inline);
  });

  it.each([
    ['../my clip.job.json', 'my-clip'],
    ['sub/..job.json', 'stabiliser-clip'],
    ['sub/CON.json', 'stabiliser-clip'],
  ])('keeps its files for %s in the folder asked for', async (name, base) => {
    mkdirSync(inBench('work/sub'), { recursive: true });
    writeJob(join('work', name));
    await fettle(['make', name, '--out', 'out'], { cwd: inBench('work') });
    const made = contents(bench.folder).map((entry) => entry.replace(/ \S+$/, ''));
    expect(made.filter((path) => path.startsWith('work/out/'))).toEqual([
      `work/out/${base}.json`,
      `work/out/${base}.stl`,
    ]);
    expect(made.filter((path) => path.endsWith('.stl'))).toHaveLength(1);
  });

  it.each([
    ['the job', 'clip.json', undefined],
    ['the printer profile', 'clip.job.json', 'clip.json'],
  ])('does not overwrite %s it is made from', async (_, job, printer) => {
    if (printer !== undefined) writeFileSync(inBench(printer), JSON.stringify(await printerProfile()));
    writeJob(job, printer === undefined ? {} : { printer });
    // By another name, so that only looking at the files themselves tells.
    const elsewhere = workshop();
    symlinkSync(bench.folder, join(elsewhere.folder, 'same'));
    const before = contents(bench.folder);
    const { code, stderr } = await fettle(['make', job, '--out', join(elsewhere.folder, 'same')], here());
    elsewhere.clear();
    expect(code).toBe(2);
    expect(stderr).toContain('would overwrite');
    expect(contents(bench.folder)).toEqual(before);
  });
});

it('refuses a refit that nobody has chosen a way for, whether a change or a reading asks for it', async () => {
  writeFileSync(inBench('lens.stl'), await stlOf(lens));
  const refit = (name: string, donor: object, readings: object) =>
    writeFileSync(
      inBench(name),
      JSON.stringify({ fettle: 1, family: 'donor', donor: { file: 'lens.stl', ...donor }, readings }),
    );
  refit('told.job.json', { changes: [{ axis: 'x', by: '3' }] }, {});
  refit('read.job.json', {}, { lengthX: ['25'] });
  for (const name of ['told.job.json', 'read.job.json']) {
    const { code, stderr } = await fettle(['make', name], here());
    expect(code).toBe(2);
    expect(stderr).toMatch(
      new RegExp(`^${name}: donor\\.changes: no way to change x by .* leaves no trace; take 1: `),
    );
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  }
});

describe('fettle check', () => {
  it('finds what make finds, with the same exit code, and writes nothing', async () => {
    const make = await fettle(['make', demoJob, '--json'], here());
    const before = contents(bench.folder);
    const check = await fettle(['check', demoJob, '--json'], here());
    expect(check.code).toBe(make.code);
    const { files, ...rest } = JSON.parse(check.stdout);
    const { files: _, ...made } = JSON.parse(make.stdout);
    expect(files).toEqual([]);
    expect(rest).toEqual(made);
    expect(contents(bench.folder)).toEqual(before);
  });
});

/** The profile that a job without one is made with, as its schema accepts it. */
async function printerProfile(): Promise<object> {
  const { defaultPrinter } = await import('../../src/printer/defaultPrinter.ts');
  return defaultPrinter;
}
