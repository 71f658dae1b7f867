import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { volumeOf } from '../output/meshes.ts';
import { readStl } from '../output/readStl.ts';
import { readThreeMf } from '../output/threeMf/readThreeMf.ts';
import { contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const inBench = (name: string) => join(bench.folder, name);
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const cover = JSON.parse(readFileSync(demoJob.replace('stabiliser-clip', 'socket-cover'), 'utf8'));
const write = (name: string, job: object) => writeFileSync(inBench(name), JSON.stringify(job));
const plate = (...args: string[]) => fettle(['plate', ...args], { cwd: bench.folder });
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

describe('fettle plate', () => {
  it('writes the plate of two jobs and says what stands where', async () => {
    write('clips.job.json', demo);
    write('cover.job.json', cover);
    const { code, stdout, stderr } = await plate('clips.job.json', 'cover.job.json', '--json');
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expect(contents(bench.folder).map((entry) => entry.split(' ')[0])).toEqual([
      'clips.job.json',
      'cover.job.json',
      'out',
      'out/clips.plate.3mf',
      'out/clips.plate.json',
      'out/clips.plate.stl',
      'out/clips.plate.svg',
    ]);
    expectFormat('plate', stdout);
    const told = JSON.parse(stdout);
    expect(readFileSync(inBench('out/clips.plate.json'), 'utf8')).toBe(stdout);
    for (const { path, sha256: stated } of told.files)
      expect(stated).toBe(sha256(readFileSync(inBench(path))));
    expect(
      told.jobs.map(({ file, quantity, fails }: Record<string, unknown>) => [file, quantity, fails]),
    ).toEqual([
      ['clips.job.json', 2, 0],
      ['cover.job.json', 1, 0],
    ]);
    expect(told.placements.map(({ job, copy }: Record<string, unknown>) => [job, copy])).toEqual([
      [0, 1],
      [0, 2],
      [1, 1],
    ]);
    expect(told.bed).toEqual({ x: 220, y: 220, z: 240 });

    // Both models hold the same three parts in the same places.
    const triangles = readStl(new Uint8Array(readFileSync(inBench('out/clips.plate.stl'))));
    const items = readThreeMf(new Uint8Array(readFileSync(inBench('out/clips.plate.3mf'))));
    expect(items).toHaveLength(3);
    expect(triangles).toHaveLength(told.files[1].triangles);
    expect(volumeOf(triangles)).toBeCloseTo((told.print.mass / 1.27) * 1000, 0);
    const least = (numbers: readonly number[]) => numbers.reduce((low, x) => Math.min(low, x), Infinity);
    for (const axis of [0, 1] as const) {
      const stl = least(triangles.flatMap(({ corners }) => corners.map((corner) => corner[axis])));
      const model = least(items.flatMap(({ corners }) => [...corners].filter((_, k) => k % 3 === axis)));
      expect(stl).toBeCloseTo(told.used.from[axis], 4);
      expect(model).toBeCloseTo(told.used.from[axis], 4);
    }
  });

  it('tells a person, and does the same again to the byte', async () => {
    write('clips.job.json', { ...demo, quantity: 9 });
    const { code, stdout } = await plate('clips.job.json', '--name', 'evening', '--spacing', '3,5 mm');
    expect(code).toBe(0);
    const lines = stdout.split('\n');
    expect(lines[0]).toBe('Plate - 1 job, 9 parts - PETG, printer 1');
    expect(lines[2]).toMatch(/^ {3}1 {2}Enter key clips, Halden 80 terminal {2}9 .* none fails$/);
    expect(stdout).toMatch(/stands .* mm of 220 x 220, in the middle of the bed, at least 3\.5 mm apart/);
    expect(stdout).toMatch(/takes .* g and about \d+ min in all/);
    expect(stdout).toMatch(/mind .*Old keycaps are brittle/);
    expect(lines.filter((line) => line.startsWith('  wrote '))).toEqual(
      ['3mf', 'stl', 'svg', 'json'].map((ending) => `  wrote out/evening.plate.${ending}`),
    );
    await plate('clips.job.json', '--name', 'evening', '--spacing', '3.5', '--out', 'again');
    for (const ending of ['3mf', 'stl', 'svg'])
      expect(readFileSync(inBench(`again/evening.plate.${ending}`))).toEqual(
        readFileSync(inBench(`out/evening.plate.${ending}`)),
      );
  });

  it('ends with 3 when a finding fails, and says for which job', async () => {
    // One arm too thin to bend that far.
    write('clips.job.json', { ...demo, material: 'PLA', surroundings: { temperature: '80 degC' } });
    const { code, stdout } = await plate('clips.job.json');
    expect(code).toBe(3);
    expect(stdout).toMatch(
      /X +a finding fails for Enter key clips, Halden 80 terminal; "fettle check" says which/,
    );
  });
});

describe('fettle plate refuses', () => {
  /** Exit 2, nothing written, these lines. */
  async function refused(lines: readonly RegExp[], ...args: string[]): Promise<void> {
    const before = contents(bench.folder);
    const { code, stdout, stderr } = await plate(...args);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    const said = stderr.trimEnd().split('\n');
    expect(said).toHaveLength(lines.length);
    lines.forEach((line, k) => {
      expect(said[k]).toMatch(line);
    });
    expect(contents(bench.folder)).toEqual(before);
  }

  it('more parts than fit, with the number that does', async () => {
    write('clips.job.json', {
      ...demo,
      quantity: 900,
      printer: { ...demo.printer, bed: { x: 60, y: 70, z: 80 } },
    });
    await refused(
      [/^clips\.job\.json: quantity: 900 parts - do not fit on 60 x 70 mm .*; allowed: \d+ of them at once/],
      'clips.job.json',
    );
  });

  it('jobs for different printers and materials, one line a difference', async () => {
    write('clips.job.json', demo);
    write('cover.job.json', { ...cover, material: 'PLA', printer: { ...cover.printer, name: 'printer 2' } });
    write('third.job.json', { ...cover, printer: { ...cover.printer, layer: 0.3 } });
    await refused(
      [
        /^cover\.job\.json: printer\.name: printer 2 - .*; allowed: printer 1, as in clips\.job\.json$/,
        /^cover\.job\.json: material: PLA - .*; allowed: PETG, as in clips\.job\.json$/,
        /^third\.job\.json: printer\.layer: 0\.3 mm - .*; allowed: 0\.2 mm, as in clips\.job\.json$/,
      ],
      ...['clips.job.json', 'cover.job.json', 'third.job.json'],
    );
  });

  it('every bad job at once', async () => {
    write('clips.job.json', { ...demo, material: 'cheese' });
    write('cover.job.json', cover);
    await refused(
      [/^clips\.job\.json: material: "?cheese/, /^none\.job\.json: no such file/],
      ...['clips.job.json', 'cover.job.json', 'none.job.json'],
    );
  });

  it.each(['0', '-3', '51', 'wide', '', 'NaN', '1e400'])('a spacing of %j', async (spacing) => {
    write('clips.job.json', demo);
    await refused(
      [/option '--spacing <mm>' argument '.*' is invalid\. allowed: 1 to 50 mm/],
      'clips.job.json',
      '--spacing',
      spacing,
    );
  });

  it('to write over a job it was made from', async () => {
    write('clips.plate.json', demo);
    await refused(
      [/would overwrite clips\.plate\.json/],
      'clips.plate.json',
      '--name',
      'clips',
      '--out',
      '.',
    );
  });
});
