import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { bundle } from '../../src/job/bundle.ts';
import { bundledJob } from '../../src/job/bundledJob.ts';
import { make } from '../../src/job/make.ts';
import { prepare } from '../../src/job/prepare.ts';
import { readBundle } from '../../src/job/readBundle.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { rawUnzip } from '../archive/rawZip.ts';
import { demo, type PlainJob, read } from './demo.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Making the part takes its time, and neither its name nor its number decides how it looks. */
let plain: MakeResult;
beforeAll(() => {
  plain = make(kernel, read(demo()));
});
const packed = (change?: (job: PlainJob) => void) => {
  const file = demo(change) as JobFile;
  const prepared = read(file);
  const { title = 'clip', quantity = 1 } = prepared.job;
  const result = { ...plain, job: { ...plain.job, title, quantity } };
  return bundle({ kernel, prepared, result, base: 'clip', file });
};
const text = (bytes: Uint8Array) => new TextDecoder().decode(bytes);
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

const page = ({ files }: ReturnType<typeof bundle>) =>
  text(files.find(({ kind }) => kind === 'readme')!.bytes).replace(/\s+/g, ' ');

describe('bundle', () => {
  let usual: ReturnType<typeof bundle>;
  beforeAll(() => {
    usual = packed();
  });

  it('lists exactly what is in it, with true sizes and hashes, by another reader of archives', () => {
    const [list, ...files] = rawUnzip(usual.bytes);
    expect(list!.name).toBe('fettle-bundle.json');
    const manifest = JSON.parse(text(list!.data));
    expect(manifest.files).toEqual(
      files.map(({ name, data }) => ({
        ...{ path: name, kind: expect.any(String), bytes: data.length, sha256: sha256(data) },
      })),
    );
    expect(files.map(({ name }) => name)).toEqual(
      expect.arrayContaining([
        ...['README.txt', 'clip.job.json', 'clip.printer.json'],
        ...['made/clip.stl', 'made/clip.3mf', 'made/clip.svg', 'made/clip.json'],
      ]),
    );
  });

  it('holds a result that lists the files beside it', () => {
    const files = new Map(rawUnzip(usual.bytes).map(({ name, data }) => [name, data]));
    const result = JSON.parse(text(files.get('made/clip.json')!));
    expect(result.files.length).toBeGreaterThanOrEqual(3);
    for (const { path, sha256: hash } of result.files) expect(sha256(files.get(path)!)).toBe(hash);
  });

  it('keeps the job as typed, but names the printer profile that lies beside it', () => {
    const { job, printer } = readBundle(usual.bytes);
    expect(job.value).toEqual({ ...demo(), printer: 'clip.printer.json' });
    expect(printer).toEqual({ path: 'clip.printer.json', value: demo().printer });
  });

  it('comes out the same, byte for byte, when it is made anew from what comes out of it', () => {
    const opened = readBundle(usual.bytes);
    const { job, family } = bundledJob(opened, families);
    const prepared = prepare(job, family);
    const file = opened.job.value as JobFile;
    const result = make(kernel, prepared);
    const again = bundle({ kernel, prepared, result, base: 'clip', file });
    expect(again.files).toEqual(usual.files);
    expect(again.bytes).toEqual(usual.bytes);
  });

  it('says who made it and on what terms', () => {
    const told = packed((job) => Object.assign(job, { author: 'M. Okafor', licence: 'CC-BY-4.0' }));
    expect(readBundle(told.bytes).manifest).toMatchObject({ author: 'M. Okafor', licence: 'CC-BY-4.0' });
    expect(page(told)).toContain('Put together by M. Okafor.');
    expect(page(told)).toContain('Licence: CC-BY-4.0,');
  });

  it('passes on what can be where nothing was said, a title is odd and so many do not fit on the bed', () => {
    const title = `Two\nlines ${'and more '.repeat(20)}`;
    const odd = packed((job) => {
      job.printer = { ...job.printer, bed: { x: 30, y: 30, z: 240 } };
      Object.assign(job, { licence: '', title, quantity: 50 });
    });
    expect(readBundle(odd.bytes).manifest).not.toHaveProperty('licence');
    expect(page(odd)).toContain('Licence: none is stated');
    const lines = text(odd.files[0]!.bytes).split('\n');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(76);
    expect(lines[0]).toMatch(/^Two lines and more/);
    expect(odd.files.map(({ kind }) => kind)).not.toContain('3mf');
    expect(odd.left).toEqual([expect.objectContaining({ field: 'quantity' })]);
  });

  it('tells the finder what stands in the result: chance, sizes to measure, cautions, what fails', () => {
    const prepared = read(demo((job) => Object.assign(job, { surroundings: { temperature: '120' } })));
    const result = make(kernel, prepared);
    const told = page(bundle({ kernel, prepared, result, base: 'clip', file: demo() as JobFile }));
    expect(told).toContain(`a chance of ${Math.round(100 * result.chance!)} %`);
    for (const { name, predicted } of result.interfaces)
      expect(told).toContain(`${name} ${predicted.toFixed(2)} mm`);
    for (const caution of result.cautions) expect(told).toContain(caution);
    const failing = result.findings.filter(({ verdict }) => verdict === 'fails');
    expect(failing.length).toBeGreaterThan(0);
    for (const { title } of failing) expect(told).toContain(`Found wrong: ${title}`);
    expect(told).toContain('fettle open clip.fettle.zip --out clip --printer my.printer.json');
  });
});
