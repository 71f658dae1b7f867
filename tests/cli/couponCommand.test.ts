import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { volumeOf } from '../output/meshes.ts';
import { readStl } from '../output/readStl.ts';
import { contents, fettle, workshop } from './fettle.ts';
import { expectFormat, validator } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const here = () => ({ cwd: bench.folder });
const inBench = (name: string) => join(bench.folder, name);
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const writeProfile = (name: string, change: object = {}) =>
  writeFileSync(inBench(name), JSON.stringify({ ...defaultPrinter, name: 'Bench Ox', ...change }));

/** The public contract, written down again: it must not move with the code. */
const contract = JSON.stringify({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  type: 'object',
  required: ['printer', 'files', 'features', 'print'],
  properties: {
    printer: { type: 'string' },
    files: {
      type: 'array',
      items: {
        type: 'object',
        required: ['path', 'kind', 'sha256'],
        properties: {
          path: { type: 'string' },
          kind: { enum: ['stl', 'png', 'html'] },
          sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' },
          triangles: { type: 'integer', exclusiveMinimum: 0 },
        },
      },
    },
    features: {
      type: 'array',
      items: {
        type: 'object',
        required: ['id', 'number', 'kind', 'axis', 'nominal', 'at'],
        properties: {
          id: { type: 'string', pattern: '^[a-z0-9.]+$' },
          number: { type: 'integer' },
          kind: { enum: ['post', 'bore', 'slot', 'rib', 'step'] },
          axis: {
            anyOf: [
              { enum: ['x', 'y', 'z'] },
              { type: 'array', items: { type: 'number' }, minItems: 3, maxItems: 3 },
            ],
          },
          nominal: { type: 'number', exclusiveMinimum: 0 },
          at: { type: 'array', items: { type: 'number' }, minItems: 3, maxItems: 3 },
        },
      },
    },
    print: {
      type: 'object',
      required: ['volume', 'mass', 'minutes'],
      properties: {
        volume: { type: 'number' },
        mass: { type: 'number', exclusiveMaximum: 10 },
        minutes: { type: 'number' },
      },
    },
  },
});

describe('fettle coupon --json', () => {
  it('keeps its contract: one JSON object, and the files it names', async () => {
    writeProfile('ox.printer.json');
    const { code, stdout, stderr } = await fettle(
      ['coupon', 'ox.printer.json', '--out', 'out', '--json'],
      here(),
    );
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expectFormat('coupon', stdout);
    const result = JSON.parse(stdout);
    const valid = validator(contract);
    expect(valid(result), JSON.stringify(valid.errors)).toBe(true);
    expect(result.printer).toBe('Bench Ox');
    expect(contents(bench.folder).map((entry) => entry.split(' ')[0])).toEqual([
      'out',
      'out/ox-coupon.html',
      'out/ox-coupon.png',
      'out/ox-coupon.stl',
      'ox.printer.json',
    ]);
    for (const { path, sha256: stated } of result.files)
      expect(sha256(readFileSync(inBench(path))), path).toBe(stated);

    // The mesh in the file is the coupon the numbers are about, at nominal sizes.
    const triangles = readStl(new Uint8Array(readFileSync(inBench('out/ox-coupon.stl'))));
    expect(triangles).toHaveLength(
      result.files.find(({ kind }: { kind: string }) => kind === 'stl').triangles,
    );
    expect(volumeOf(triangles)).toBeCloseTo(result.print.volume, 2);
    const corners = triangles.flatMap(({ corners }) => corners);
    const reach = result.features.find(({ id }: { id: string }) => id === 'span.x');
    expect(Math.max(...corners.map(([x]) => x))).toBeCloseTo(reach.nominal, 5);
    const top = result.features.find(({ id }: { id: string }) => id === 'height.tower');
    expect(Math.max(...corners.map(([, , z]) => z))).toBeCloseTo(top.nominal, 5);
    expect(Math.min(...corners.flat())).toBeCloseTo(0, 6);

    const { width, height } = PNG.sync.read(readFileSync(inBench('out/ox-coupon.png')));
    expect([width, height]).toEqual([1200, 960]);
    expect(readFileSync(inBench('out/ox-coupon.html'), 'utf8')).toContain('fettle calibrate ox.printer.json');
    expect(result.features.map(({ id }: { id: string }) => id)).toEqual(
      coupon(defaultPrinter).features.map(({ id }) => id),
    );
  });

  it('gives the same STL whatever has been learnt of the printer, and another for other layers', async () => {
    writeProfile('one.json');
    writeProfile('two.json', { name: 'Hall Mule', outerGrowth: { value: 0.1, u: 0.01 }, material: 'PETG' });
    writeProfile('three.json', { layer: 0.25 });
    const [one, two, three] = await Promise.all(
      ['one', 'two', 'three'].map(async (name) => {
        const { stdout } = await fettle(['coupon', `${name}.json`, '--out', name, '--json'], here());
        return JSON.parse(stdout).files[0].sha256;
      }),
    );
    expect(two).toBe(one);
    expect(three).not.toBe(one);
  });
});

describe('fettle coupon', () => {
  it('tells a person what it is, what it takes, how to print it, what comes next', async () => {
    writeProfile('ox.printer.json', { material: 'PETG' });
    const { code, stdout } = await fettle(['coupon', 'ox.printer.json'], here());
    expect(code).toBe(0);
    const lines = stdout.trimEnd().split('\n');
    expect(lines[0]).toBe('Coupon - Bench Ox, PETG');
    expect(stdout).toMatch(/^ {2}takes {5}8\.0 g and about \d+ min \(solid at 50 mm\/s/m);
    expect(stdout).toMatch(/no brim/);
    expect(stdout).toMatch(/let it cool/);
    for (const kind of ['stl', 'png', 'html']) expect(lines).toContain(`  wrote out/ox-coupon.${kind}`);
    expect(lines.at(-1)).toMatch(/^next: fettle calibrate ox\.printer\.json/);
    expect(stdout).not.toMatch(/NaN|undefined|Infinity/);
  });

  it.each([
    ['a small bed', { bed: { x: 60, y: 60, z: 60 } }, 'bed.x: 60 - allowed: at least 76 mm'],
    ['coarse lines', { lineWidth: 1.4 }, 'lineWidth: 1.4 - allowed: at most 1 mm'],
    ['no layer height', { layer: 'thin' }, 'layer: "thin" - allowed: a number'],
    ['a newer profile', { fettlePrinter: 9 }, 'fettlePrinter: 9 - comes from a newer Fettle'],
    ['a misspelt field', { lineWith: 0.4 }, 'Did you mean lineWidth?'],
  ])('refuses %s in one line and writes nothing', async (_, change, words) => {
    writeProfile('ox.json', change);
    const before = contents(bench.folder);
    const { code, stdout, stderr } = await fettle(['coupon', 'ox.json', '--out', 'out', '--json'], here());
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stderr).toContain('ox.json: ');
    expect(stderr).toContain(words);
    expect(contents(bench.folder)).toEqual(before);
  });

  it('refuses a file that is not there, and a folder in the way of its files', async () => {
    expect(await fettle(['coupon', 'none.json'], here())).toMatchObject({ code: 2, stdout: '' });
    writeProfile('ox.json');
    writeFileSync(inBench('out'), 'a file');
    const before = contents(bench.folder);
    expect(await fettle(['coupon', 'ox.json', '--out', 'out'], here())).toMatchObject({
      code: 2,
      stdout: '',
    });
    expect(contents(bench.folder)).toEqual(before);
  });
});
