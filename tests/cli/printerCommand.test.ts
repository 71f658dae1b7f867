import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { printerProfileSchema } from '../../src/printer/profile.ts';
import { contents, demoJob, fettle, workshop } from './fettle.ts';

let bench: ReturnType<typeof workshop>;
let path: string;
beforeEach(() => {
  bench = workshop();
  path = join(bench.folder, 'my.printer.json');
});
afterEach(() => bench.clear());

const written = () => JSON.parse(readFileSync(path, 'utf8'));

describe('printer new', () => {
  it('asks a few questions and doubts the rest', async () => {
    const input = 'Bench Ox\n200x210 x 8in\n0,4\n\n0.24 mm\npetg\n';
    const { code, stdout, stderr } = await fettle(['printer', 'new', path], { input });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(printerProfileSchema.parse(written())).toEqual({
      ...defaultPrinter,
      ...{ name: 'Bench Ox', bed: { x: 200, y: 210, z: 203.2 }, lineWidth: 0.4 },
      ...{ layer: defaultPrinter.layer, firstLayer: 0.24, material: 'PETG' },
    });
    expect(stdout).toContain(`next: fettle coupon ${path} --out out`);
  });

  it('asks again where an answer is none, and takes the usual where the lines end', async () => {
    const { code, stdout } = await fettle(['printer', 'new', path], { input: '\nlarge\n200 200\n' });
    expect(code).toBe(0);
    expect(stdout).toContain('X "large" is not three lengths; allowed: three lengths from 20 to 2000 mm');
    expect(stdout).toContain('X "200 200" is not three lengths');
    expect(written()).toMatchObject({ name: 'printer 1', bed: defaultPrinter.bed, material: 'PLA' });
  });

  it('takes options in place of answers, and asks nothing with --usual', async () => {
    const told = ['--name', 'Ox', '--layer', '0.16', '--material', 'asa', '--bed', '120*130*140'];
    const { code, stdout } = await fettle(['printer', 'new', path, '--usual', ...told]);
    expect(code).toBe(0);
    expect(stdout.split('\n')).toHaveLength(3);
    expect(written()).toMatchObject({
      name: 'Ox',
      layer: 0.16,
      material: 'ASA',
      bed: { x: 120, y: 130, z: 140 },
    });
  });

  it('refuses options that say nothing, one line each, and writes nothing', async () => {
    const told = ['--layer', '3', '--bed', '12', '--material', 'wood', '--name', ' '];
    const { code, stdout, stderr } = await fettle(['printer', 'new', path, ...told]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    const lines = stderr.trimEnd().split('\n');
    expect(lines).toHaveLength(4);
    for (const [k, option] of ['--bed', '--layer', '--material', '--name'].entries())
      expect(lines.toSorted()[k]).toContain(option);
    expect(contents(bench.folder)).toEqual([]);
  });

  it.each([
    ['a file there is', (): string => path, /my\.printer\.json: exists already - allowed: a new name\n$/],
    [
      'no folder',
      (): string => join(path, 'x.json'),
      /x\.json: not a directory - allowed: a file name in a folder/,
    ],
  ])('asks nothing where %s would refuse the answers', async (_, name, said) => {
    writeFileSync(path, 'mine');
    const { code, stdout, stderr } = await fettle(['printer', 'new', name()], { input: 'Ox\n' });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(said);
  });

  it('never writes over a file', async () => {
    writeFileSync(path, 'mine');
    const { code, stderr } = await fettle(['printer', 'new', path, '--usual']);
    expect(code).toBe(2);
    expect(stderr).toBe(`${path}: exists already - allowed: a new name\n`);
    expect(readFileSync(path, 'utf8')).toBe('mine');
  });
});

describe('a job that names its profile', () => {
  const named = async (profile: string): Promise<{ code: number | null; stderr: string }> => {
    writeFileSync(path, profile);
    const job = join(bench.folder, 'my.job.json');
    writeFileSync(
      job,
      JSON.stringify({ ...JSON.parse(readFileSync(demoJob, 'utf8')), printer: 'my.printer.json' }),
    );
    return fettle(['check', job]);
  };
  const demoProfile = JSON.parse(readFileSync(demoJob, 'utf8')).printer;

  it('takes one of the first version', async () => {
    const { material, firstLayerError, levelSag, skew, ...old } = demoProfile;
    const { code, stderr } = await named(JSON.stringify({ ...old, fettlePrinter: 1 }));
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  });

  it.each([
    ['of a newer version', { ...demoProfile, fettlePrinter: 3 }],
    ['that is no profile', { temperature: 210, infill: 0.2 }],
    ['with a doubtful covariance', { ...demoProfile, calibration: { covariance: [[1]] } }],
  ])('refuses one %s', async (_, profile) => {
    const { code, stderr } = await named(JSON.stringify(profile));
    expect(code).toBe(2);
    expect(stderr).toMatch(/^.*my\.job\.json: printer/m);
  });
});
