import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readStl } from '../output/readStl.ts';
import { bracket, lens, NECK, stlOf } from './donorModel.ts';
import { contents, fettle, workshop } from './fettle.ts';
import { expectFormat, validator } from './validator.ts';

/** Volume and extents of an STL file, by another program's reader; volume by the divergence theorem. */
function measured(path: string): { volume: number; extents: number[]; triangles: number } {
  const triangles = readStl(new Uint8Array(readFileSync(path)));
  const six = triangles.reduce((sum, { corners: [a, b, c] }) => {
    const across = [b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0]];
    return sum + a[0] * across[0]! + a[1] * across[1]! + a[2] * across[2]!;
  }, 0);
  const extents = ([0, 1, 2] as const).map((k) => {
    const all = triangles.flatMap(({ corners }) => corners.map((p) => p[k]));
    return Math.max(...all) - Math.min(...all);
  });
  return { volume: six / 6, extents, triangles: triangles.length };
}

let bench: ReturnType<typeof workshop>;
beforeEach(async () => {
  bench = workshop();
  writeFileSync(join(bench.folder, 'bracket.stl'), await stlOf(bracket));
});
afterEach(() => bench.clear());
const run = (args: readonly string[], input = '') => fettle(args, { cwd: bench.folder, input });

describe('donor', () => {
  it('says what a model is, in the agreed form', async () => {
    const { code, stdout, stderr } = await run(['donor', 'bracket.stl', '--json']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expectFormat('donor', stdout);
    const donor = JSON.parse(stdout);
    expect(donor.units.guess).toBe('mm');
    expect(donor.extents.map((x: number) => Number(x.toFixed(4)))).toEqual([20, 16, 30]);
    expect(donor.sound).toMatchObject({ manifold: true, bodies: 1, genus: 1 });
    const neck = donor.spans.find(
      ({ axis, from, to }: { axis: string; from: number; to: number }) =>
        axis === 'z' && Math.abs(from - 6) < 1e-6 && Math.abs(to - 18) < 1e-6,
    );
    expect(neck.area).toBeCloseTo(NECK, 4);
    expect(donor.bores).toHaveLength(1);
    expect(donor.bores[0]).toMatchObject({ id: 'bore1', axis: 'z', through: true });
    expect(donor.bores[0].inscribed).toBeCloseTo(3.2, 3);
    expect(donor.posts).toHaveLength(1);
    expect(donor.posts[0].circumscribed).toBeCloseTo(4, 3);
  });

  it('takes another unit when told so', async () => {
    const { stdout } = await run(['donor', 'bracket.stl', '--units', 'inch', '--json']);
    const donor = JSON.parse(stdout);
    expect(donor.units).toMatchObject({ guess: 'inch', from: 'person' });
    expect(donor.extents[2]).toBeCloseTo(30 * 25.4, 2);
    expect(donor.bores[0].inscribed).toBeCloseTo(3.2 * 25.4, 2);
  });

  it('calls a size odd that nobody prints, and is never all sure of a guess', async () => {
    // Without the first line, which says the unit.
    writeFileSync(join(bench.folder, 'mote.stl'), (await stlOf(bracket, 1e-6)).fill(0, 0, 80));
    const mote = await run(['donor', 'mote.stl']);
    expect(mote.stdout).toMatch(/units +metre, > 99 % sure/);
    expect(mote.stdout).toMatch(/odd +shorter than 1\.00 mm/);
    const house = await run(['donor', 'bracket.stl', '--units', 'foot']);
    expect(house.stdout).toMatch(/odd +longer than 1000\.00 mm/);
    expect((await run(['donor', 'bracket.stl'])).stdout).not.toMatch(/odd/);
  });

  it('refuses a model far beyond any bench in its unit', async () => {
    const hall = await run(['donor', 'bracket.stl', '--units', 'metre']);
    expect({ code: hall.code, stdout: hall.stdout }).toEqual({ code: 2, stdout: '' });
    expect(hall.stderr).toMatch(
      /^bracket\.stl: reaches [\d.]+ mm from its origin - allowed: a model within 10000\.00 mm of it; its numbers are in another unit, or damaged\n$/,
    );
  });

  it('tells a person where it can change', async () => {
    const { stdout } = await run(['donor', 'bracket.stl']);
    expect(stdout).toContain('along z from 6.00 to 18.00: 12.00 long');
    expect(stdout).toContain('bore1: 3.20');
  });

  it.each([
    ['missing.stl', /missing\.stl: .*allowed: a model in STL or 3MF/],
    ['.', /a folder - allowed: a model/],
    ['text.stl', /text\.stl: .*allowed: /],
  ])('refuses %s in one line', async (name, said) => {
    writeFileSync(join(bench.folder, 'text.stl'), 'no model at all');
    const { code, stdout, stderr } = await run(['donor', name]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(said);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});

describe('refit', () => {
  it('takes a change up where the section stays the same, and nowhere else', async () => {
    const args = ['refit', 'bracket.stl', '--axis', 'z', '--by', '-3.4', '--out', 'out', '--json'];
    const { stdout, stderr } = await run(args);
    expect(stderr).toBe('');
    const result = JSON.parse(stdout);
    const { scaling } = result;
    const valid = validator(
      readFileSync(new URL('../../dist/schemas/result.schema.json', import.meta.url), 'utf8'),
    );
    expect(valid(result), JSON.stringify(valid.errors)).toBe(true);
    expect(result.changes).toHaveLength(1);
    expect(result.changes[0]).toMatchObject({ axis: [0, 0, 1], by: -3.4, exact: true, mismatchArea: 0 });
    expect(result.chance).toBeNull();
    expect(scaling.factor).toBeCloseTo(26.6 / 30, 9);
    expect(scaling.features.find(({ id }: { id: string }) => id === 'bore1').scaled).toBeCloseTo(
      3.2 * (26.6 / 30),
      3,
    );

    const before = measured(join(bench.folder, 'bracket.stl'));
    const after = measured(join(bench.folder, result.files[0].path));
    expect(after.volume).toBeCloseTo(before.volume - 3.4 * NECK, 1);
    expect(after.extents[2]).toBeCloseTo(26.6, 4);
    expect(after.extents.slice(0, 2).map((x) => Number(x.toFixed(4)))).toEqual([20, 16]);
    expect(after.triangles).toBe(before.triangles);
  });

  it('draws bores and posts for the machine, and says how likely they fit', async () => {
    const job = {
      ...{ fettle: 1, family: 'donor', donor: { file: 'bracket.stl' }, material: 'PETG' },
      readings: {
        bore1: ['3.01', '3.00', '3.02'],
        post1: ['4.31', '4.30', '4.32'],
        lengthZ: ['31.50', '31.52', '31.48'],
      },
    };
    writeFileSync(join(bench.folder, 'my.refit.json'), JSON.stringify(job));
    const { stdout, stderr } = await run([
      'refit',
      'bracket.stl',
      '--job',
      'my.refit.json',
      '--out',
      'out',
      '--json',
    ]);
    expect(stderr).toBe('');
    const result = JSON.parse(stdout);
    const ids = result.interfaces.map(({ id }: { id: string }) => id).sort();
    expect(ids).toEqual(['bore1', 'lengthZ', 'post1']);
    expect(result.chance).toBeGreaterThan(0);
    // Upright it comes in whole layers of 0.2 mm.
    expect(Math.abs(result.changes[0].by - 1.5)).toBeLessThan(0.11);
    // Where the interfaces are said to be, in the STL: the bore 6 mm off the middle, in the base.
    const of = (id: string) => result.interfaces.find((one: { id: string }) => one.id === id);
    const { extents } = measured(join(bench.folder, result.files[0].path));
    expect(of('bore1').at[0]).toBeCloseTo(extents[0]! / 2 + 6, 3);
    expect(of('bore1').at[2]).toBeCloseTo(3, 1);
    expect(of('post1').at[2]).toBeCloseTo(extents[2]! - 3, 1);
    // The same through `make`, with the model beside the job.
    const made = JSON.parse((await run(['make', 'my.refit.json', '--out', 'made', '--json'])).stdout);
    expect(made.files[0].sha256).toBe(result.files[0].sha256);
  });

  it('asks where every way leaves a trace, and makes the one that was taken', async () => {
    writeFileSync(join(bench.folder, 'lens.stl'), await stlOf(lens));
    const asked = await run(['refit', 'lens.stl', '--axis', 'z', '--by', '-2', '--out', 'out']);
    expect({ code: asked.code, stdout: asked.stdout }).toEqual({ code: 2, stdout: '' });
    expect(asked.stderr).toMatch(/leaves no trace; take 1: .*2: /);
    expect(contents(bench.folder).some((name) => name.startsWith('out'))).toBe(false);
    const taken = await run([
      'refit',
      'lens.stl',
      '--axis',
      'z',
      '--by',
      '-2',
      '--take',
      '1',
      '--out',
      'out',
      '--json',
    ]);
    const [change] = JSON.parse(taken.stdout).changes;
    expect(change).toMatchObject({ by: -2, exact: false });
  });

  it.each([
    [['--by', '1'], '--by says what to do along the --axis before it'],
    [['--axis', 'z'], 'either by or to'],
    [['--axis', 'w', '--by', '1'], 'donor.changes[0].axis'],
    [['--axis', 'z', '--by', 'much'], 'donor.changes[0].by'],
    [['--axis', 'z', '--by', '-40'], 'bracket.stl: donor.changes'],
    [[], 'nothing to change'],
  ])('refuses %j and writes nothing', async (args, said) => {
    const before = contents(bench.folder);
    const { code, stderr } = await run(['refit', 'bracket.stl', ...args, '--out', 'out']);
    expect(code).toBe(2);
    expect(stderr).toContain(said);
    expect(contents(bench.folder)).toEqual(before);
  });

  it('writes a job with a place for each reading, beside the model', async () => {
    const { code } = await run(['donor', 'bracket.stl', '--job', 'my.refit.json']);
    expect(code).toBe(0);
    const job = JSON.parse(readFileSync(join(bench.folder, 'my.refit.json'), 'utf8'));
    expect(Object.keys(job.readings)).toEqual(['bore1', 'post1', 'lengthX', 'lengthY', 'lengthZ']);
    const { stdout } = await run(['measure', 'my.refit.json'], '3.01\n\n\n\n\n\n\n');
    expect(stdout).toContain('WHAT GOES IN BORE 1');
    const made = await run(['check', 'my.refit.json', '--json']);
    expect(JSON.parse(made.stdout).interfaces.map(({ id }: { id: string }) => id)).toEqual(['bore1']);
  });
});
