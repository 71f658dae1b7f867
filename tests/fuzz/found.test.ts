// What random jobs and damaged files brought to light, each by the fault it was.
import { describe, expect, it } from 'vitest';
import { calibrateAction } from '../../src/cli/calibrate/calibrateAction.ts';
import { make } from '../../src/job/make.ts';
import { parsePrinter } from '../../src/job/parsePrinter.ts';
import { sentence } from '../../src/job/problem.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { demo, read } from '../job/demo.ts';
import { coverDemo } from '../parts/coverJob.ts';
import { footDemo } from '../parts/footJob.ts';
import { commandRun } from './commandRun.ts';
import { couponTable, demoJobs } from './corpus.ts';

const PRINTER = 'any.printer.json';

describe('calibrating', () => {
  it('refuses a printer that no coupon suits by its field (it broke down over it)', async () => {
    const coarse = JSON.stringify({ ...defaultPrinter, lineWidth: 1.4 });
    const run = await commandRun(
      { [PRINTER]: coarse, 'read.csv': couponTable(defaultPrinter, 1) },
      (inFolder) => calibrateAction(inFolder(PRINTER), inFolder('read.csv'), { date: '2026-11-20' }),
    );
    expect(run.refused).toEqual(['coupon_not_printable']);
  });
});

describe('a push-in foot', () => {
  it('says that its legs shear where odd fits make them thick and short (its formula broke down)', async () => {
    const kernel = await loadKernel();
    const odd = footDemo();
    Object.assign(odd.readings, { hole: ['4.16'], wall: ['1.60'], height: ['33.73'] });
    odd.fits = { barb: 'F12/s1', stem: 'press' };
    const { findings } = make(kernel, read(odd));
    const legs = findings.find(({ id }) => id === 'stem.legs');
    expect(legs).toMatchObject({ verdict: 'fails', limit: 1.5 });
    expect(legs!.value).toBeLessThan(1.5);
    expect(findings.some(({ id }) => id === 'stem.strain')).toBe(false);
    odd.fits = {};
    expect(make(kernel, read(odd)).findings.some(({ id }) => id === 'stem.strain')).toBe(true);
  });
});

describe.each([90, 89.9999])('a printer that prints overhangs of %d degrees', (overhang) => {
  it('has nothing to mind of them (an outline moved by infinity ended in the air)', async () => {
    const kernel = await loadKernel();
    const able = demo((job) => Object.assign(job.printer, { overhang }));
    const found = make(kernel, read(able)).findings.find(({ id }) => id === 'overhang')!;
    expect(found.verdict).toBe('holds');
    expect(Number.isFinite(found.limit)).toBe(true);
  });
});

it('a fit so loose that the bore takes all of the part is refused (its solid was empty)', async () => {
  const kernel = await loadKernel();
  const loose = { ...demoJobs().find(({ family }) => family === 'spacer')!, fits: { bore: [4.8, 5] } };
  expect(() => make(kernel, read(loose))).toThrow(
    expect.objectContaining({
      problems: [expect.objectContaining({ code: 'shape_not_possible', field: 'fits' })],
    }),
  );
});

it('a plate goes around the holes that a printer with its scale off needs elsewhere (they broke out of its edge)', async () => {
  const kernel = await loadKernel();
  const cover = coverDemo();
  Object.assign(cover.choices, { held: 'screws' });
  Object.assign(cover.readings, { screw: ['3.90'], head: ['7.40'], screwSpacing: ['184.65'] });
  const profile = cover.printer as typeof defaultPrinter;
  const scale = { ...profile.scale, x: { value: 0.977, u: 0.0008 } };
  Object.assign(cover, { printer: { ...profile, calibration: undefined, scale } });
  const { findings } = make(kernel, read(cover));
  expect(findings.find(({ id }) => id === 'sound')).toMatchObject({ verdict: 'holds' });
  expect(findings.find(({ id }) => id === 'wall')!.value).toBeGreaterThan(0.8);
});

it('slots keep off the round corners of the plug behind them (its wall bridged the last one)', async () => {
  const kernel = await loadKernel();
  const cover = coverDemo();
  Object.assign(cover.readings, {
    ...{ openingWidth: ['54.40'], openingHeight: ['44.38'], cornerRadius: ['19.03'], roomBehind: ['40'] },
  });
  Object.assign(cover.choices, { lettering: 'none', near: 'nothing' });
  Object.assign(cover, { sizes: { vent: '2.20' } });
  const { findings } = make(kernel, read(cover));
  expect(findings.find(({ id }) => id === 'sound')).toMatchObject({ verdict: 'holds' });
});

it('a ladder that was tight where it is looser and loose where it is tighter leaves numbers (its shift was none)', async () => {
  const kernel = await loadKernel();
  const odd = demo((job) => {
    const { name, layer } = job.printer as { readonly name: string; readonly layer: number };
    const rungs = [0, 1, 2, 3].map((k) => ({
      clearance: { bar: 0.08 * k, 'bar.run': 0.3 + 0.08 * k },
      drawn: { bar: 1.6 + 0.08 * k, 'bar.run': 2.7 + 0.08 * k },
    }));
    const bar = {
      ...{ date: '2026-11-21', printer: name, material: job.material, layer, rungs },
      doubt: { u: 0.01, spread: 0.001 },
      window: { bar: [0.1, 0.12], 'bar.run': [0.4, 0.42] },
      aim: { bar: 0.11, 'bar.run': 0.41 },
      felt: { tight: [4], right: [], loose: [1] },
    };
    Object.assign(job, { ladders: { bar } });
  });
  const { chance, interfaces } = make(kernel, read(odd));
  expect(chance).toBeGreaterThanOrEqual(0);
  for (const { drawn, predicted } of interfaces) expect(drawn * predicted).toBeGreaterThan(0);
});

it('a cause of doubt named as something every object has is refused by name (it was added up)', () => {
  const none = Array.from({ length: 10 }, () => 0);
  const shared = [{ id: 'constructor', label: 'callipers, scale', shift: none }];
  const calibration = { covariance: none.map(() => none), shared };
  expect(() => parsePrinter({ ...defaultPrinter, calibration })).toThrow(
    expect.objectContaining({
      problems: expect.arrayContaining([
        expect.objectContaining({
          field: 'calibration.shared[0].id',
          allowed: 'a cause such as calliper:scale',
        }),
      ]),
    }),
  );
});

it('a printer nested as deep as JSON goes is refused by name (looking at its texts ran out of stack)', () => {
  const deep = JSON.parse(`${'['.repeat(4000)}"x"${']'.repeat(4000)}`);
  expect(() => parsePrinter({ ...defaultPrinter, name: deep })).toThrow(
    expect.objectContaining({ problems: [expect.objectContaining({ field: 'name' })] }),
  );
});

describe('the line of a refusal', () => {
  it('stays readable whatever stands in the file (a row run together took 9999 characters)', () => {
    const long = 'interface.reading'.repeat(500);
    const line = sentence('a.csv', { code: 'x', field: long, value: long, allowed: 'one of a, b' });
    expect(line.length).toBeLessThan(500);
    expect(line).toMatch(/^a\.csv: interface\.reading.*\.\.\.: interface.*\.\.\. - allowed: one of a, b$/);
  });
});
