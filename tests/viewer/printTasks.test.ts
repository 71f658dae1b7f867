import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { sha256Hex } from '../../src/job/hash.ts';
import { jobText } from '../../src/job/jobText.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { defaultCallipers } from '../../src/measure/index.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { profileText } from '../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { otherCallipers } from '../../viewer/sheets/print/otherCallipers.ts';
import { baseOf } from '../../viewer/spine/tasks/baseOf.ts';
import { calibrated } from '../../viewer/spine/tasks/calibrate.ts';
import { couponFacts, couponReadingsIn, couponTaken } from '../../viewer/spine/tasks/coupon.ts';
import { judgedFacts, ladderFacts } from '../../viewer/spine/tasks/ladder.ts';
import { bedOf } from '../../viewer/spine/tasks/plate.ts';
import { type TakenFile, taken } from '../../viewer/spine/tasks/takeAway.ts';

const job = JSON.parse(
  readFileSync(new URL('../../parts/stabiliser-clip/demo.job.json', import.meta.url), 'utf8'),
) as JobFile;
const own: PrinterProfile = { ...defaultPrinter, name: 'Ostler 2', material: 'PETG' };

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** The answer of a task that crosses to the page whole; throws for one that is refused or cannot cross. */
function crossed<T>(answer: T): Exclude<T, { readonly kind: 'refused' }> {
  const copy = structuredClone(answer);
  if (typeof copy === 'object' && copy !== null && 'kind' in copy)
    throw new Error(JSON.stringify((copy as { problems?: unknown }).problems));
  return copy as Exclude<T, { readonly kind: 'refused' }>;
}

const fettle = (args: readonly string[], cwd: string) => {
  const run = spawnSync(process.execPath, [join(import.meta.dirname, '../../dist/bin/fettle.js'), ...args], {
    cwd,
    encoding: 'utf8',
  });
  if (run.status !== 0) throw new Error(run.stderr);
};

describe('files to take away', () => {
  it('are, name and byte, those of the command line for the same job', () => {
    const folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
    const name = `${baseOf(job)}.job.json`;
    writeFileSync(join(folder, name), jobText(job));
    fettle(['make', name, '--out', 'out', '--3mf', '--drawing', '--report'], folder);
    fettle(['bundle', name, '--out', 'out'], folder);
    const kinds = ['stl', '3mf', 'drawing', 'report', 'bundle'] as const;
    const files = kinds.flatMap((kind): readonly TakenFile[] => crossed(taken(kernel, families, job, kind)));
    expect(files.map(({ name: called }) => called)).toEqual(
      ['.stl', '.3mf', '.svg', '.html', '.fettle.zip'].map((ending) => `${baseOf(job)}${ending}`),
    );
    for (const { name: called, bytes } of files)
      expect([called, sha256Hex(bytes)]).toEqual([
        called,
        sha256Hex(readFileSync(join(folder, 'out', called))),
      ]);
  });

  it('of a coupon are those of the command line, but for what the form says comes next', () => {
    const folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
    writeFileSync(join(folder, 'Ostler-2.printer.json'), profileText(own));
    fettle(['coupon', 'Ostler-2.printer.json', '--out', 'out'], folder);
    const [stl, png, html] = crossed(couponTaken(kernel, own));
    for (const { name, bytes } of [stl!, png!])
      expect([name, sha256Hex(bytes)]).toEqual([name, sha256Hex(readFileSync(join(folder, 'out', name)))]);
    const next = /Afterwards: <code>[^<]*<\/code>/;
    const [here, there] = [
      new TextDecoder().decode(html!.bytes),
      readFileSync(join(folder, 'out', html!.name), 'utf8'),
    ];
    expect(here).toMatch(next);
    expect(here.replace(next, '')).toBe(there.replace(next, ''));
  });
});

describe('the bed', () => {
  it('holds as many as the job asks for, apart by what was asked', () => {
    const bed = crossed(bedOf(kernel, families, { ...job, quantity: 12 }));
    expect(bed.standing).toHaveLength(12);
    const boxes = bed.standing.map(({ contours }) => {
      const [xs, ys] = [0, 1].map((k) => contours.flat().map((p) => p[k]!));
      return { x: [Math.min(...xs!), Math.max(...xs!)], y: [Math.min(...ys!), Math.max(...ys!)] } as const;
    });
    for (const [k, a] of boxes.entries()) {
      for (const [[lo, hi], side] of [[a.x, bed.bed.x] as const, [a.y, bed.bed.y] as const]) {
        expect(lo).toBeGreaterThan(bed.spacing - 1e-6);
        expect(hi).toBeLessThan(side - bed.spacing + 1e-6);
      }
      for (const b of boxes.slice(k + 1)) {
        // Boxes apart in one direction at least; shadows of these clips fill theirs nearly.
        const apart = Math.max(b.x[0]! - a.x[1]!, a.x[0]! - b.x[1]!, b.y[0]! - a.y[1]!, a.y[0]! - b.y[1]!);
        expect(apart).toBeGreaterThan(0);
      }
    }
  });

  it('refuses more than it holds with how many it would hold', () => {
    const small = { ...own, bed: { x: 40, y: 40, z: 40 } };
    const refused = bedOf(kernel, families, { ...job, printer: small as never, quantity: 100 });
    expect(refused).toMatchObject({ kind: 'refused', problems: [{ code: 'plate_full', field: 'quantity' }] });
    const [problem] = (refused as unknown as { problems: { allowed: string }[] }).problems;
    const most = Number(/^(\d+) of them/.exec(problem!.allowed)?.[1]);
    expect(most).toBeGreaterThan(1);
    expect(
      crossed(bedOf(kernel, families, { ...job, printer: small as never, quantity: most })).standing,
    ).toHaveLength(most);
  });
});

describe('the coupon', () => {
  it('has a field for every feature on its drawing, none over another or off the sheet', () => {
    const { sheet, features } = crossed(couponFacts(kernel, own, [16.5, 8.5]));
    expect(sheet.fields.map(({ feature }) => feature)).toEqual(features.map(({ id }) => id));
    expect(features).toHaveLength(31);
    for (const [k, { field: a }] of sheet.fields.entries()) {
      expect(a[0]).toBeGreaterThanOrEqual(0);
      expect(a[1]).toBeGreaterThanOrEqual(0);
      expect(a[0] + a[2]).toBeLessThanOrEqual(sheet.size[0]);
      expect(a[1] + a[3]).toBeLessThanOrEqual(sheet.size[1]);
      for (const { field: b } of sheet.fields.slice(k + 1)) {
        const apart = Math.max(
          b[0] - a[0] - a[2],
          a[0] - b[0] - b[2],
          b[1] - a[1] - a[3],
          a[1] - b[1] - b[3],
        );
        expect(apart, `fields ${k + 1}`).toBeGreaterThan(0);
      }
    }
  });

  it('takes readings from a table as they are, and says the unit where it is another', async () => {
    const csv = 'bore.3;3,79;3,80\n23;75.81\n';
    expect(await couponReadingsIn(own, 'readings.csv', csv, 'mm')).toEqual({
      texts: { 'bore.3': ['3,79', '3,80'], 'span.x': ['75.81'] },
    });
    const told = JSON.stringify({
      callipers: { name: 'the old pair', zero: '0.03' },
      readings: { 'bore.3': ['3.8'] },
    });
    const read = await couponReadingsIn(own, 'a.json', told, 'mm');
    if ('kind' in read) throw new Error('was refused');
    // What closed jaws show is not taken off silently, nor left on.
    expect(otherCallipers(read.callipers, defaultCallipers)).toMatch(
      /^The file was read with the old pair \(closed they show 0\.03, here 0\.00;/,
    );
    expect(otherCallipers(defaultCallipers, defaultCallipers)).toBe('');
    const inches = JSON.stringify({ unit: 'in', readings: { 'bore.3': ['0.156'], 'span.x': ['75.81 mm'] } });
    expect(await couponReadingsIn(own, 'a.json', inches, 'mm')).toEqual({
      texts: { 'bore.3': ['0.156 in'], 'span.x': ['75.81 mm'] },
    });
  });

  it('refuses a reading that the feature cannot have, by its number', async () => {
    expect(await couponReadingsIn(own, 'a.csv', 'bore.3,40', 'mm')).toMatchObject({
      kind: 'refused',
      problems: [{ code: 'reading_range', value: expect.stringContaining('40') }],
    });
  });

  it('finds the very growth and shrink that a print was made with, and raises the chance of the job', () => {
    const { features } = crossed(couponFacts(kernel, own, [16.5, 8.5]));
    // A printer by arithmetic of its own: outer faces 0.06 mm out, bores and slots 0.09 mm in, nothing shrinks.
    const size = { post: 0.12, rib: 0.12, bore: -0.18, slot: -0.18 } as const;
    const read = features.filter(({ kind, id }) => kind !== 'step' && id !== 'foot.y' && id !== 'bore.level');
    const texts = Object.fromEntries(
      read.map(({ id, kind, nominal }) => {
        const printed = (nominal + size[kind as keyof typeof size]).toFixed(2);
        return [id, [printed, printed]];
      }),
    );
    // Knife edges, so that they read round bores as they are.
    const bench = { ...job, callipers: { landWidth: 0 }, printer: own as never };
    const facts = crossed(calibrated(kernel, families, bench, own, texts, '2026-11-20'));
    const { profile } = facts.report;
    expect(profile.calibrated).toBe('2026-11-20');
    expect(Math.abs(profile.outerGrowth.value - 0.06)).toBeLessThan(0.02);
    expect(Math.abs(profile.boreShrink.value - 0.09)).toBeLessThan(0.04);
    expect(facts.chance.after!).toBeGreaterThan(facts.chance.before!);
    // Nothing was read that tells about roofs.
    expect(facts.undetermined.levelSag).toMatch(/12/);
  });
});

describe('a ladder', () => {
  it('has the bytes of the command line, and teaches job and printer the same', () => {
    const folder = mkdtempSync(join(tmpdir(), 'fettle-page-'));
    const name = `${baseOf(job)}.job.json`;
    const path = join(folder, name);
    writeFileSync(path, jobText(job));
    fettle(['ladder', name, 'socket', '--out', 'out'], folder);
    const drawn = JSON.parse(readFileSync(path, 'utf8')) as JobFile;
    const { date } = drawn.ladders!.socket!;
    const facts = crossed(ladderFacts(kernel, families, job, 'socket', { date }));
    expect(facts.record).toEqual(drawn.ladders!.socket);
    for (const { name: called, bytes } of facts.files)
      expect([called, sha256Hex(bytes)]).toEqual([
        called,
        sha256Hex(readFileSync(join(folder, 'out', called))),
      ]);

    fettle(['ladder', name, 'socket', '--tight', '1,2', '--right', '3,4', '--loose', '5-7'], folder);
    const told = JSON.parse(readFileSync(path, 'utf8')) as JobFile;
    const felt = { tight: [1, 2], right: [3, 4], loose: [5, 6, 7] };
    const judged = crossed(judgedFacts(families, drawn, 'socket', felt));
    expect(JSON.parse(JSON.stringify(judged.record))).toEqual(told.ladders!.socket);
    expect(JSON.parse(JSON.stringify(judged.learnt))).toEqual(told.printer);
  });

  it('refuses a verdict that nobody can mean', () => {
    const { record } = crossed(ladderFacts(kernel, families, job, 'socket', { date: '2026-11-21' }));
    const remembered = { ...job, ladders: { socket: record as never } };
    expect(judgedFacts(families, remembered, 'socket', { tight: [5], right: [], loose: [2] })).toMatchObject({
      kind: 'refused',
      problems: [{ code: 'verdict_contradictory' }],
    });
  });
});
