import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { fitFacts } from '../../src/job/fitFacts.ts';
import { make } from '../../src/job/make.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { readJob } from '../../src/job/readJob.ts';
import { reportInput } from '../../src/job/report.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { ScenePart } from '../../src/job/scene.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { assemblyFindings } from '../../viewer/sheets/fit/assemblyFindings.ts';
import { ladderWords, nearestPlaces } from '../../viewer/sheets/fit/fitWords.ts';
import { numberOf, surfaceOf } from '../../viewer/sheets/fit/surfaceOf.ts';

const kernel = await loadKernel();
const text = (id: string) =>
  readFileSync(new URL(`../../parts/${id}/demo.job.json`, import.meta.url), 'utf8');
const foot = JSON.parse(text('case-foot'));

/** One part, and a set of four whose ids begin with the name of theirs. */
const jobs = {
  clip: text('stabiliser-clip'),
  feet: JSON.stringify({
    ...foot,
    quantity: 1,
    choices: { ...foot.choices, feet: 'each' },
    readings: {
      ...foot.readings,
      ...{ frontLeft: ['9.0'], frontRight: ['9.1'], rearLeft: ['12.0'], rearRight: ['12.1'] },
    },
  }),
};

interface MadeJob {
  readonly prepared: Prepared;
  readonly result: MakeResult;
  readonly scene: readonly ScenePart[];
}
const made: Record<string, MadeJob> = {};
beforeAll(() => {
  for (const [name, job] of Object.entries(jobs)) {
    const prepared = readJob(job, families);
    made[name] = { prepared, result: make(kernel, prepared), scene: sceneOf(kernel, prepared) };
  }
});

describe.each(Object.keys(jobs))('%s', (name) => {
  it('finds the number of every surface where the report does', () => {
    const { prepared, result, scene } = made[name]!;
    const { fits } = reportInput(prepared, result, scene);
    expect(fits.length).toBeGreaterThan(0);
    expect(fits.map(({ id }) => numberOf(result, id))).toEqual(fits.map(({ number }) => number));
    expect(fits.every(({ number }) => number !== null)).toBe(true);
  });

  it('asks for fits by names that the job takes', () => {
    const { prepared, result } = made[name]!;
    const asked = new Set(result.interfaces.map(({ id }) => surfaceOf(result, id).own));
    const surfaces = fitFacts(prepared.job, prepared.family).surfaces.map(({ id }) => id);
    expect([...asked].sort()).toEqual([...surfaces].sort());
  });

  it('knows the usual windows, which are those of a job that asks for nothing', () => {
    const { prepared, result } = made[name]!;
    const { surfaces } = fitFacts(prepared.job, prepared.family);
    for (const one of result.interfaces) {
      const surface = surfaces.find(({ id }) => id === surfaceOf(result, one.id).own)!;
      expect(surface.window).toEqual(one.window);
      expect(surface.ladder).toBeNull();
    }
  });
});

it('keeps the usual window where the job asks for another, and where it asks for nonsense', () => {
  const { prepared } = made.clip!;
  const usual = fitFacts(prepared.job, prepared.family);
  for (const fits of [{ bar: 'press' as const }, { bar: 'H8/zz99' }, { nowhere: 'snug' as const }])
    expect(fitFacts({ ...prepared.job, fits }, prepared.family)).toEqual(usual);
});

it('puts the nearest place of the way first, of the print and not of the drawing', () => {
  const { result } = made.clip!;
  const places = nearestPlaces(result);
  const gaps = places.map(({ gap }) => gap);
  expect(gaps).toEqual([...gaps].sort((a, b) => a - b));
  expect(places.length).toBeGreaterThan(2);
  for (const { number, gap } of places) {
    const finding = result.findings[number - 1]!;
    expect(finding.title).toMatch(/as printed$/);
    expect(finding.value).toBe(gap);
  }
});

it('tells the way that is taken from the others', () => {
  const { result } = made.clip!;
  const { asked, others } = assemblyFindings(result.findings, result.assembly!.id);
  expect(asked.map(({ title }) => title)).toContain(result.assembly!.name);
  expect(others.map(({ title }) => title)).not.toContain(result.assembly!.name);
  expect(others.length).toBeGreaterThan(0);
  for (const { number, id } of [...asked, ...others]) expect(result.findings[number - 1]!.id).toBe(id);
});

it('says of a ladder what was felt, and that one of another printer says nothing', () => {
  const ladder = {
    ...{ group: 'socket', date: '2026-11-22', printer: 'printer 1', material: 'PETG', rungs: 5 },
    ...{ felt: { tight: [1, 2], right: [3], loose: [4, 5] }, speaks: true },
  };
  const words = ladderWords(ladder);
  expect(words).toContain('22 Nov 2026');
  expect(words).toContain('1, 2 too tight; 3 right; 4, 5 too loose');
  expect(words).not.toContain('nothing follows');
  expect(ladderWords({ ...ladder, speaks: false })).toContain('nothing follows');
  expect(ladderWords({ ...ladder, felt: null })).toContain('not felt yet');
});
