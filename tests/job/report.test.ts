import { readFileSync } from 'node:fs';
import type { Element } from '@xmldom/xmldom';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { readJob } from '../../src/job/readJob.ts';
import { reportInput } from '../../src/job/report.ts';
import type { MakeResult } from '../../src/job/result.ts';
import { resultObject } from '../../src/job/resultObject.ts';
import type { ResultFile } from '../../src/job/resultSchema.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { reportPage } from '../../src/output/report/index.ts';
import { stl } from '../../src/output/stl.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { readStl } from '../output/readStl.ts';
import { all, readPage, textOf, textsOf, withClass } from '../output/report/readPage.ts';

const kernel = await loadKernel();

type Plain = Record<string, unknown> & { readings: object; choices: object };
const demo = (id: string): Plain =>
  JSON.parse(readFileSync(new URL(`../../parts/${id}/demo.job.json`, import.meta.url), 'utf8')) as Plain;
const [clip, foot, cover] = [demo('stabiliser-clip'), demo('case-foot'), demo('socket-cover')];

const jobs: Readonly<Record<string, Plain>> = {
  clip,
  foot,
  cover,
  'clip that fails': {
    ...clip,
    ...{ material: 'PLA', surroundings: { temperature: '70' }, fits: { bar: [0.02, 0.05] } },
    choices: { ...clip.choices, lay: 'upright' },
  },
  'clip off a printer nobody measured': { ...clip, printer: undefined, author: 'K. Ahlers', licence: 'MIT' },
  'feet, each another': {
    ...{ ...foot, quantity: 1 },
    choices: { ...foot.choices, feet: 'each' },
    readings: {
      ...foot.readings,
      ...{ frontLeft: ['9.0'], frontRight: ['9.1'], rearLeft: ['12.0'], rearRight: ['12.1'] },
    },
  },
};

interface Case {
  readonly prepared: Prepared;
  readonly result: MakeResult;
  readonly file: ResultFile;
  readonly text: string;
  readonly page: Element;
}
const cases: Record<string, Case> = {};

beforeAll(() => {
  for (const [name, job] of Object.entries(jobs)) {
    const prepared = readJob(JSON.stringify(job), families);
    const result = make(kernel, prepared);
    const input = reportInput(prepared, result, sceneOf(kernel, prepared), { file: 'my.job.json' });
    const text = reportPage(input, { sharpness: 0.05 });
    cases[name] = { prepared, result, file: resultObject(result, []), text, page: readPage(text) };
  }
}, 120_000);

/** Half a unit of the last digit shown, and a hair for its rounding. */
function agrees(shown: string | undefined, value: number): void {
  const plain = (shown ?? '').replace('\u00b1', '').trim();
  const [, digits = '', decimals = ''] = /^(-?\d+)(?:\.(\d+))?$/.exec(plain) ?? [];
  expect(digits, `"${shown}" as a number`).not.toBe('');
  expect(Math.abs(Number(plain) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals.length + 1e-9);
}

/** A chance as the page says it. */
function chanceAgrees(shown: string | undefined, chance: number): void {
  if (shown === '> 99 %') expect(chance).toBeGreaterThanOrEqual(0.995);
  else if (shown === '< 1 %') expect(chance).toBeLessThan(0.005);
  else agrees(shown?.replace(' %', ''), 100 * chance);
}

/** Three digits, with the unit. */
function significant(shown: string | undefined, value: number, unit: string): void {
  expect(shown).toMatch(/^-?[\d.]+/);
  expect(shown!.replace(/^-?[\d.]+ ?/, '')).toBe(unit === '1' ? '' : unit);
  expect(Math.abs(Number.parseFloat(shown!) - value)).toBeLessThanOrEqual(0.005 * Math.abs(value) + 1e-12);
}

describe.each(Object.keys(jobs))('report of a %s', (name) => {
  it('states the chance, what it rests on and what to do next as the result has them', () => {
    const { page, file } = cases[name]!;
    const verdict = withClass(page, 'verdict')[0]!;
    chanceAgrees(textOf(all(verdict, 'b')[0]), file.chance!);
    const rows = textsOf(page, 'shares');
    rows.forEach(([label, , share], k) => {
      if (label === 'everything else') {
        const named = file.shares.slice(0, k).reduce((sum, one) => sum + one.share, 0);
        chanceAgrees(share, 1 - named);
      } else {
        expect(label).toBe(file.shares[k]!.label);
        chanceAgrees(share, file.shares[k]!.share);
      }
    });
    expect(rows.length).toBeGreaterThan(2);
    const next = textOf(withClass(page, 'next')[0]);
    expect(next === '').toBe(file.advice === null);
    if (file.advice) {
      expect(next).toContain(file.advice.sentence);
      chanceAgrees(/Then (.*)\.$/.exec(next)?.[1], file.advice.to);
    }
  });

  it('has every fit, size by size', () => {
    const { page, file } = cases[name]!;
    const rows = textsOf(page, 'fits');
    expect(rows).toHaveLength(file.interfaces.length);
    rows.forEach(([number, what, machine, draw, prints, clearance, window, chance], k) => {
      const one = file.interfaces[k]!;
      expect(what).toContain(one.name);
      agrees(machine, one.host);
      agrees(draw, one.drawn);
      agrees(prints, one.predicted);
      const [expected, give] = clearance!.split(' \u00b1 ');
      agrees(expected, one.clearance);
      agrees(give, 2 * one.u);
      const [lo, hi] = window!.split(' .. ');
      agrees(lo, one.window[0]!);
      agrees(hi, one.window[1]!);
      chanceAgrees(chance, one.chance);
      const judged = file.findings[Number(number) - 1]!;
      expect(judged.value).toBeCloseTo(one.clearance, 9);
      expect(judged.id).toContain('clearance.');
    });
  });

  it('lets the print be what leaves a clearance within the window', () => {
    const { page, file } = cases[name]!;
    textsOf(page, 'sizes').forEach(([, , drawn, expected, may], k) => {
      const one = file.interfaces[k]!;
      agrees(drawn, one.drawn);
      agrees(expected, one.predicted);
      const solid = one.kind === 'post' || one.kind === 'rib';
      const [least, greatest] = may!.split(' .. ').map(Number) as [number, number];
      const clearances = [least, greatest].map((size) => (solid ? one.host - size : size - one.host));
      const [lo, hi] = one.window as [number, number];
      // Rounded inward by less than a hundredth, or to a thousandth where the window is narrower than that.
      expect(Math.min(...clearances)).toBeGreaterThanOrEqual(lo - 6e-4);
      expect(Math.max(...clearances)).toBeLessThanOrEqual(hi + 6e-4);
      expect(Math.min(...clearances)).toBeLessThan(lo + 0.01 + 1e-6);
      expect(Math.max(...clearances)).toBeGreaterThan(hi - 0.01 - 1e-6);
    });
  });

  it('has every reading as typed, and how well each is known', () => {
    const { page, file, prepared } = cases[name]!;
    const rows = textsOf(page, 'readings');
    const asked = Object.entries(prepared.family.readings).filter(
      ([, spec]) => spec.when?.(prepared.values.choices) ?? true,
    );
    expect(rows).toHaveLength(asked.length);
    rows.forEach(([what, typed, value, U, k, n], row) => {
      const [id, { name: called }] = asked[row]!;
      expect(what).toContain(called);
      const texts = (prepared.job.readings[id] ?? []).map(String);
      const known = file.dimensions[id];
      if (texts.length > 0) expect(typed).toBe(texts.join(' '));
      if (known === undefined) {
        expect([value, U, k, n]).toEqual(['', '', '', '']);
        return;
      }
      const plain = (shown: string | undefined) => shown!.replace(/ (g|deg|degC|N)$/, '');
      agrees(plain(value), known.value);
      agrees(plain(U), known.U);
      agrees(k, known.k);
      expect(n).toBe(String(texts.length));
      for (const { sentence } of known.remarks) expect(what!.toLowerCase()).toContain(sentence.toLowerCase());
    });
  });

  it('has every finding under its number, with limit, reason, source and remedy', () => {
    const { page, file } = cases[name]!;
    const sources = new Map(
      withClass(page, 'sources')
        .flatMap((list) => all(list, 'li'))
        .map((item) => all(item, 'span').map(textOf) as [string, string]),
    );
    const held = new Map(textsOf(page, 'holds').map((row) => [row[0], row]));
    const cards = new Map(all(page, 'article').map((card) => [card.getAttribute('id'), card]));
    expect(held.size + cards.size).toBe(file.findings.length);
    file.findings.forEach(({ verdict, title, value, limit, unit, because, source, remedy, margin }, k) => {
      const plain = (words: string) => words.replace(/\s+/g, ' ').trim();
      const said = plain(because).slice(1);
      const side =
        limit === null || value === null ? '' : margin! >= 0 === limit >= value ? 'at most ' : 'at least ';
      if (verdict === 'holds') {
        const [, what, found, allowed, from] = held.get(String(k + 1))!;
        expect(what).toContain(title);
        expect(what).toContain(said);
        if (value === null) expect(found).toBe('');
        else significant(found, value, unit);
        if (margin === null || value === null) expect(allowed).toBe('');
        else {
          expect(allowed!.startsWith(side)).toBe(true);
          significant(allowed!.slice(side.length), limit!, unit);
        }
        expect(sources.get(from!)).toBe(plain(source));
      } else {
        const card = cards.get(`finding-${k + 1}`)!;
        expect(textOf(all(card, 'em')[0])).toBe(verdict);
        const head = textOf(all(card, 'h3')[0]);
        expect(head).toContain(title);
        const number = textOf(withClass(card, 'measured')[0]);
        if (value !== null) significant(/^[^(]*[^( ]/.exec(number)?.[0], value, unit);
        if (margin !== null && value !== null)
          significant(/\(at (?:most|least) (.*)\)$/.exec(number)?.[1], limit!, unit);
        const words = textOf(card);
        expect(words).toContain(said);
        expect(words).toContain(plain(source));
        expect(words).toContain(plain(remedy).slice(1));
      }
    });
  });

  it('weighs what density and the volume of the STL give', () => {
    const { page, result, prepared } = cases[name]!;
    const grams = result.parts.reduce((sum, { mesh }) => {
      const bytes = stl(mesh, { part: 'x', unit: 'mm', hash: result.job.hash, ascii: false });
      return (
        sum +
        (volumeOf(readStl(bytes).map(({ corners }) => corners)) / 1000) * prepared.material.density.value
      );
    }, 0);
    const material = textsOf(page, 'advice').find(([row]) => row === 'Material')![1]!;
    const [each, together] = [...material.matchAll(/([\d.]+) g/g)].map(([, g]) => Number(g));
    expect(Math.abs(each! / grams - 1)).toBeLessThan(0.005);
    if (prepared.job.quantity > 1)
      expect(Math.abs(together! / (prepared.job.quantity * grams) - 1)).toBeLessThan(0.005);
  });

  it('says how to print it as printer and findings have it', () => {
    const { page, file, prepared } = cases[name]!;
    const { printer } = prepared;
    const advice = new Map(textsOf(page, 'advice').map(([row, words]) => [row, words!]));
    expect(advice.get('Layers')).toBe(
      `${file.print.layers} of ${printer.layer} mm, the first one ${printer.firstLayer} mm; lines ${printer.lineWidth} mm wide`,
    );
    const stands = (...checks: string[]) =>
      file.findings
        .filter(({ id }) => checks.some((check) => id.split('.').at(-1) === check))
        .every(({ verdict }) => verdict === 'holds');
    expect(/^None:/.test(advice.get('Support')!)).toBe(stands('overhang', 'bridge'));
    expect(/^No brim/.test(advice.get('Hold on the bed')!)).toBe(stands('contact', 'tip'));
    expect(/coupon/.test(advice.get('Corrections')!)).toBe(printer.calibrated !== null);
    // The method as it is stated: 40 mm/s of line, and 4 s a layer.
    const seconds = file.parts.reduce(
      (sum, { print }) => sum + print.volume / (printer.lineWidth * printer.layer * 40) + 4 * print.layers,
      0,
    );
    const [, hours = '0', minutes = '0'] = /About (?:(\d+) h ?)?(?:(\d+) min)?/.exec(advice.get('Time')!)!;
    const told = 60 * Number(hours) + Number(minutes);
    expect(Math.abs(told - (prepared.job.quantity * seconds) / 60)).toBeLessThanOrEqual(
      told >= 60 ? 2.5 : 0.5,
    );
    const captions = withClass(page, 'printing').flatMap((one) => all(one, 'figcaption').map(textOf));
    file.parts.forEach(({ print }, k) => {
      const sizes = /([\d.]+) x ([\d.]+) x ([\d.]+) mm/.exec(captions[k]!)!.slice(1);
      sizes.forEach((size, axis) => {
        agrees(size, print.extents[axis]!);
      });
    });
  });

  it('keeps every caution on the first sheet, and every step of putting it in', () => {
    const { page, file } = cases[name]!;
    const first = textOf(withClass(page, 'sheet')[0]).toLowerCase();
    expect(file.cautions.length).toBeGreaterThan(0);
    for (const caution of file.cautions) expect(first).toContain(caution.toLowerCase());
    const steps = withClass(page, 'put-in').flatMap((one) => all(one, 'li').map(textOf));
    expect(steps).toEqual(file.assembly!.steps.map((step) => `${step}.`));
  });

  it('tells how to make it again', () => {
    const { page, file, prepared } = cases[name]!;
    const words = withClass(page, 'again').map(textOf).join();
    expect(words).toContain(file.job.hash);
    expect(words).toContain('fettle make my.job.json');
    const settings = new Map(textsOf(page, 'settings').map(([row, value]) => [row, value]));
    for (const [id, choice] of Object.entries(prepared.family.choices))
      expect(settings.get(choice.name)).toMatch(new RegExp(`^${prepared.values.choices[id]!}`));
    expect(words.includes('Licence: MIT, K. Ahlers.')).toBe(prepared.job.licence === 'MIT');
  });
});

/** Volume by the divergence theorem, mm^3. */
const volumeOf = (triangles: readonly (readonly (readonly number[])[])[]): number =>
  triangles.reduce((sum, [a, b, c]) => {
    const [p, q, r] = [a!, b!, c!];
    return (
      sum +
      (p[0]! * (q[1]! * r[2]! - q[2]! * r[1]!) +
        p[1]! * (q[2]! * r[0]! - q[0]! * r[2]!) +
        p[2]! * (q[0]! * r[1]! - q[1]! * r[0]!)) /
        6
    );
  }, 0);

describe('reportInput', () => {
  it('puts each place of a set on its own part, and shows the machine it meets', () => {
    const { prepared, result } = cases['feet, each another']!;
    const scene = sceneOf(kernel, prepared);
    const input = reportInput(prepared, result, scene);
    expect(input.parts.map(({ name }) => name)).toEqual([
      'front left',
      'front right',
      'rear left',
      'rear right',
    ]);
    for (const { hosts } of input.parts) expect(hosts.map(({ name }) => name)).toEqual(['case']);
    for (const fit of input.fits) {
      const seen = scene[fit.part]!.interfaces.find(({ id }) => id === fit.id)!;
      seen.at.forEach((x, k) => {
        expect(fit.at[k]).toBeCloseTo(x, 6);
      });
    }
    const parts = new Set(input.findings.map(({ part }) => part));
    // What is said of all of them in the same words belongs to none.
    expect(parts).toEqual(new Set([0, 1, 2, 3, null]));
  });

  it('gives the same page twice', () => {
    const { prepared, result, text } = cases.clip!;
    const again = reportInput(prepared, result, sceneOf(kernel, prepared), { file: 'my.job.json' });
    expect(reportPage(again, { sharpness: 0.05 })).toBe(text);
  });
});
