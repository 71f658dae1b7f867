import { readFileSync } from 'node:fs';
import { strFromU8, unzipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { readDonor } from '../../src/donor/read/readDonor.ts';
import { jobPlate, type PlateJob } from '../../src/job/jobPlate.ts';
import { make } from '../../src/job/make.ts';
import { plateAgreement } from '../../src/job/plateAgreement.ts';
import { PlateRefused } from '../../src/job/plateRefused.ts';
import { plateTurns } from '../../src/job/plateTurns.ts';
import type { Problem } from '../../src/job/problem.ts';
import { readJob } from '../../src/job/readJob.ts';
import { plateThreeMf, threeMfOf } from '../../src/job/threeMfOf.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { cornersOf, volumeOf } from '../donor/read/independent.ts';
import { readThreeMf } from '../output/threeMf/readThreeMf.ts';
import { faultsOfModel } from '../outside/threeMf/validModel.ts';
import { demo, type PlainJob, read } from './demo.ts';

let kernel: ManifoldToplevel;
/** Two clips and a cover, PETG; four feet that differ, TPU. */
let clips: PlateJob;
let cover: PlateJob;
let feet: PlateJob;

const plainJob = (name: string): PlainJob =>
  JSON.parse(readFileSync(new URL(`../../parts/${name}/demo.job.json`, import.meta.url), 'utf8')) as PlainJob;
const made = (job: unknown): PlateJob => {
  const prepared = readJob(JSON.stringify(job), families);
  return { prepared, result: make(kernel, prepared) };
};
/** The same job with another number of copies, and with other fields, without making it again. */
const with_ = (job: PlateJob, change: object, quantity = job.result.job.quantity): PlateJob => ({
  prepared: { ...job.prepared, ...change },
  result: { ...job.result, job: { ...job.result.job, quantity } },
});

beforeAll(async () => {
  kernel = await loadKernel();
  clips = made(plainJob('stabiliser-clip'));
  cover = made(plainJob('socket-cover'));
  const four = plainJob('case-foot');
  const { height, ...readings } = four.readings;
  const heights = { frontLeft: height, frontRight: height, rearLeft: ['9.4'], rearRight: ['9.6'] };
  const choices = { ...four.choices, feet: 'each' };
  feet = made({ ...four, choices, readings: { ...readings, ...heights }, quantity: 1 });
});

const refusal = (work: () => unknown): { job: number; problem: Problem } => {
  try {
    work();
  } catch (error) {
    if (error instanceof PlateRefused) return { job: error.job, problem: error.problems[0]! };
    throw error;
  }
  throw new RangeError('refusal requires a plate that is refused (this one was laid out)');
};

describe('the plate of jobs', () => {
  it('has every part of every job as often as it is asked for', () => {
    const { parts, plate, placements } = jobPlate(kernel, [clips, cover]);
    expect(parts.map(({ job, id, name, count }) => ({ job, id, name, count }))).toEqual([
      { job: 0, id: '', name: 'Enter key clips, Halden 80 terminal', count: 2 },
      { job: 1, id: '', name: 'Cover of the printer socket, Halden 80 terminal', count: 1 },
    ]);
    expect(plate.placements.map(({ item, copy }) => [item, copy])).toEqual([
      [0, 1],
      [0, 2],
      [1, 1],
    ]);
    expect(placements).toHaveLength(3);
  });

  it('takes the parts of a set by their names', () => {
    const { parts, plate } = jobPlate(kernel, [feet]);
    expect(parts.length).toBeGreaterThan(1);
    expect(plate.placements).toHaveLength(parts.length);
    expect(new Set(parts.map(({ id }) => id)).size).toBe(parts.length);
    for (const { name } of parts) expect(name).toMatch(/^Rear feet, Halden 80 terminal, ./);
  });

  it('weighs as much as its material: 1.27 g/cm3 times the volume of what is in the 3MF', () => {
    const laid = jobPlate(kernel, [clips, cover]);
    const { mesh } = readDonor(plateThreeMf([clips, cover], laid), 'p.3mf');
    // The density of PETG that src/standards/materials.ts gives its source for.
    expect(laid.mass).toBeCloseTo((volumeOf(cornersOf(mesh)) / 1000) * 1.27, 3);
  });

  it('counts the layers once, however many parts share them', () => {
    const one = jobPlate(kernel, [with_(clips, {}, 1)]);
    const ten = jobPlate(kernel, [with_(clips, {}, 10)]);
    const [{ print }] = clips.result.parts as [PlateJob['result']['parts'][0]];
    // 40 mm/s along lines of 0.42 mm by 0.2 mm, 4 s a layer; by hand.
    const lines = print.volume / (0.42 * 0.2 * 40) / 60;
    const layers = (print.layers * 4) / 60;
    expect(one.minutes).toBeCloseTo(lines + layers, 6);
    expect(ten.minutes).toBeCloseTo(10 * lines + layers, 6);
  });

  it('has a hash that follows jobs and spacing', () => {
    const hashes = [
      jobPlate(kernel, [clips]).hash,
      jobPlate(kernel, [clips], { spacing: 6 }).hash,
      jobPlate(kernel, [cover]).hash,
      jobPlate(kernel, [clips, cover]).hash,
    ];
    expect(new Set(hashes).size).toBe(4);
    expect(jobPlate(kernel, [clips]).hash).toBe(hashes[0]);
  });
});

describe('a plate that does not fit', () => {
  const room = (x: number, y: number, z = 240) => ({
    printer: { ...clips.prepared.printer, bed: { x, y, z } },
  });

  it('says how many do', () => {
    const { job, problem } = refusal(() => jobPlate(kernel, [with_(clips, room(60, 60), 500)]));
    expect(job).toBe(0);
    expect(problem).toMatchObject({ code: 'plate_full', field: 'quantity', value: '500 parts' });
    const [, fit] = /^(\d+) of them at once, or less than 5 mm between them$/.exec(problem.allowed)!;
    expect(problem.reason).toBe('do not fit on 60 x 60 mm with 5 mm between them and around');
    // That many do, indeed.
    expect(jobPlate(kernel, [with_(clips, room(60, 60), Number(fit))]).plate.ok).toBe(true);
  });

  it('names the part that is too wide, and its job', () => {
    const small = [with_(clips, room(50, 30)), with_(cover, room(50, 30))];
    const { job, problem } = refusal(() => jobPlate(kernel, small));
    expect(job).toBe(1);
    const [x, y] = cover.result.parts[0]!.print.extents;
    const needs = [x, y].map((length) => Number((length + 10).toFixed(2))).join(' x ');
    expect(problem).toEqual({
      ...{ code: 'plate_too_wide', field: 'printer.bed', value: '50 x 30 mm' },
      allowed: `at least ${needs} mm, 5 mm around the part included`,
      reason: 'is too small for Cover of the printer socket, Halden 80 terminal',
    });
  });

  it('names the part that is too tall', () => {
    const { problem } = refusal(() => jobPlate(kernel, [with_(cover, room(220, 220, 6))]));
    expect(problem).toMatchObject({ code: 'plate_too_tall', value: '6 mm high' });
    const height = cover.result.parts[0]!.print.extents[2];
    expect(problem.allowed).toBe(`at least ${Number(height.toFixed(2))} mm high`);
  });
});

describe('jobs that are printed at once', () => {
  it('agree about all that the whole plate has in common', () => {
    expect(plateAgreement(cover.prepared, clips.prepared, 'a.job.json')).toEqual([]);
  });

  it('are told in what they differ', () => {
    const other = read(
      demo((job) => {
        job.material = 'PLA';
        job.printer = { ...job.printer, name: 'printer 2', layer: 0.15, bed: { x: 180, y: 180, z: 180 } };
      }),
    );
    const problems = plateAgreement(other, clips.prepared, 'a.job.json');
    expect(problems.map(({ field, value, allowed }) => `${field}: ${value} / ${allowed}`)).toEqual([
      'printer.name: printer 2 / printer 1, as in a.job.json',
      'material: PLA / PETG, as in a.job.json',
      'printer.layer: 0.15 mm / 0.2 mm, as in a.job.json',
      'printer.bed: 180 x 180 x 180 mm / 220 x 220 x 240 mm, as in a.job.json',
    ]);
  });
});

describe('turns', () => {
  const known = (value: number) => ({ value, u: 0.001 });
  const printer = (x: number, y: number, skew = 0) => ({
    ...{ scale: { x: known(x), y: known(y), z: known(1) }, skew: known(skew) },
  });

  it('are all free on a printer whose axes are alike', () => {
    expect(plateTurns(defaultPrinter, [200, 200, 10])).toEqual([0, 90, 180, 270]);
  });

  it.each([
    // 0.03 % of 30 mm is 0.009 mm, of 40 mm 0.012: the step of callipers lies between.
    ['a little part on uneven axes', printer(0.9978, 0.9981), 30, 4],
    ['a longer one', printer(0.9978, 0.9981), 40, 2],
    ['axes that lean', printer(1, 1, 0.0005), 20, 2],
  ] as const)('of %s', (_, axes, long, turns) => {
    expect(plateTurns(axes, [long, 5, 5])).toHaveLength(turns);
  });
});

describe('the 3MF of a job', () => {
  it('is allowed by the core specification, and three.js finds every copy of every part where the plate says', async () => {
    const jobs = [clips, cover];
    const laid = jobPlate(kernel, jobs);
    const file = plateThreeMf(jobs, laid);
    expect(await faultsOfModel(strFromU8(unzipSync(file)['3D/3dmodel.model']!))).toEqual([]);
    const items = readThreeMf(file);
    expect(items).toHaveLength(3);
    laid.plate.placements.forEach(({ item, x, y }, k) => {
      const { corners } = items[k]!;
      const least = (axis: number) =>
        corners.reduce((low, c, at) => (at % 3 === axis ? Math.min(low, c) : low), Infinity);
      expect(corners.length / 9).toBe(laid.parts[item]!.mesh.triangles.length / 3);
      expect(least(0)).toBeCloseTo(x, 4);
      expect(least(1)).toBeCloseTo(y, 4);
      expect(least(2)).toBe(0);
    });
  });

  it('says who and on which terms, and whose terms when they differ', () => {
    const said = (jobs: readonly PlateJob[]) => {
      const model = strFromU8(unzipSync(plateThreeMf(jobs, jobPlate(kernel, jobs)))['3D/3dmodel.model']!);
      return Object.fromEntries(
        [...model.matchAll(/<metadata name="([^"]*)"[^>]*>([^<]*)</g)].map(([, name, text]) => [name, text]),
      );
    };
    const signed = (job: PlateJob, author: string, licence: string) =>
      with_(job, { job: { ...job.prepared.job, author, licence } });
    const one = said([signed(clips, 'A. Restorer', 'CC-BY-4.0')]);
    expect(one).toMatchObject({
      ...{ Title: clips.result.job.title, Designer: 'A. Restorer', LicenseTerms: 'CC-BY-4.0' },
      ...{
        'fettle:JobHash': clips.result.job.hash,
        'fettle:Material': 'PETG',
        'fettle:Printer': 'printer 1',
      },
    });
    expect(said([clips])).not.toHaveProperty('LicenseTerms');
    const two = said([signed(clips, 'A. Restorer', 'CC-BY-4.0'), signed(cover, 'B. Finder', 'MIT')]);
    expect(two).toMatchObject({
      Designer: 'A. Restorer; B. Finder',
      LicenseTerms: `${clips.result.job.title}: CC-BY-4.0; ${cover.result.job.title}: MIT`,
      'fettle:JobHash': `${clips.result.job.hash} ${cover.result.job.hash}`,
    });
  });

  it('lays the copies closer before it refuses them, unless told how far apart', () => {
    const [x, y] = cover.result.parts[0]!.print.extents;
    // Two abreast with 2 mm between and around, not with 5.
    const bed = { x: 2 * x + 3 * 2 + 1, y: y + 2 * 2 + 1, z: 50 };
    const two = with_(cover, { printer: { ...cover.prepared.printer, bed } }, 2);
    expect(readThreeMf(threeMfOf(kernel, two))).toHaveLength(2);
    expect(refusal(() => threeMfOf(kernel, two, { spacing: 5 })).problem.code).toBe('plate_too_wide');
    const three = with_(two, {}, 3);
    expect(refusal(() => threeMfOf(kernel, three)).problem.code).toBe('plate_full');
  });

  it('has the same bytes again', () => {
    expect(threeMfOf(kernel, feet)).toEqual(threeMfOf(kernel, feet));
  });
});
