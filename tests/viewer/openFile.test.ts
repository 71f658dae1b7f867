import { readFileSync } from 'node:fs';
import { zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { families } from '../../parts/index.ts';
import { bundle } from '../../src/job/bundle.ts';
import { make } from '../../src/job/make.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { profileText } from '../../src/printer/profileText.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { jobFile, printerFile } from '../../viewer/drawer/jobFiles.ts';
import { openFile } from '../../viewer/spine/tasks/openFile.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const demo = readFileSync(new URL('../../parts/stabiliser-clip/demo.job.json', import.meta.url), 'utf8');
const profile = { ...defaultPrinter, name: 'Bench printer' };
const opened = (bytes: Uint8Array) => openFile(bytes, families);
const codes = (bytes: Uint8Array) => {
  const file = opened(bytes);
  return file.kind === 'refused' ? file.problems.map(({ code }) => code) : file.kind;
};

describe('a file given to the page', () => {
  test('a job comes back as typed, and goes out as the text it came in as', () => {
    const file = opened(utf8(demo));
    if (file.kind !== 'job') throw new Error(`is ${file.kind}`);
    expect(file.job).toEqual(JSON.parse(demo));
    const out = jobFile(file.job);
    expect(out.name).toMatch(/^[\w-]+\.job\.json$/);
    expect(JSON.parse(out.text)).toEqual(JSON.parse(demo));
    expect(opened(utf8(out.text))).toEqual(file);
  });

  test('a job whose readings are not all there yet is a job', () => {
    expect(opened(utf8('{"fettle":1,"family":"stabiliser-clip"}')).kind).toBe('job');
  });

  test('a printer profile goes in and out unchanged', () => {
    const out = printerFile(profile);
    expect(out).toEqual({ name: 'Bench-printer.printer.json', text: profileText(profile) });
    expect(opened(utf8(out.text))).toEqual({ kind: 'printer', profile });
  });

  test('a bundle gives its job with the printer in it, which makes the same part', async () => {
    const file: JobFile = { ...JSON.parse(demo), printer: profile };
    const prepared = readJob(JSON.stringify(file), families);
    const kernel = await loadKernel();
    const result = make(kernel, prepared);
    const { bytes } = bundle({ kernel, prepared, result, base: 'foot', file });
    const back = opened(bytes);
    if (back.kind !== 'job') throw new Error(`is ${back.kind}`);
    expect(back.bundled).toBe(true);
    expect(readJob(JSON.stringify(back.job), families)).toEqual(prepared);
  });

  test.each([
    ['nothing', new Uint8Array(), ['file_empty']],
    ['what is no text', Uint8Array.from([0xff, 0xfe, 0x00]), ['not_utf8']],
    ['text that is no JSON', utf8('solid part'), ['json_malformed']],
    ['JSON of another kind', utf8('[1]'), ['not_a_job']],
    ['a job from a newer Fettle', utf8('{"fettle":2}'), ['version_unknown']],
    ['a kind of part there is not', utf8('{"fettle":1,"family":"peg"}'), ['family_unknown']],
    ['a printer from a newer Fettle', utf8('{"fettlePrinter":9}'), ['version_unknown']],
    ['an archive that is no bundle', zipSync({ 'a.txt': utf8('a') }), ['not_a_bundle']],
    ['text beyond any job', new Uint8Array(6 * 2 ** 20).fill(32), ['file_too_large']],
    [
      'a job that wants to be more than one',
      utf8('{"fettle":1,"family":"stabiliser-clip","readings":{"__proto__":["1"]}}'),
      ['field_unknown'],
    ],
  ])('%s is refused', (_, bytes, expected) => expect(codes(bytes)).toEqual(expected));
});
