import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { bundledJob } from '../../src/job/bundledJob.ts';
import { Refused, sentence } from '../../src/job/problem.ts';
import { type Bundle, readBundle } from '../../src/job/readBundle.ts';
import { rawZip } from '../archive/rawZip.ts';
import { edited, edits } from '../fuzz/damage/bytes.ts';
import { demo } from './demo.ts';
import { hostileBundle, sha256, soundAnd, soundBut } from './hostileBundle.ts';

type Damages = (file: Uint8Array) => Uint8Array;

/** What is said of a bundle that is refused, line by line. */
function said(work: () => unknown): readonly string[] {
  try {
    work();
  } catch (error) {
    if (error instanceof Refused) return error.problems.map((problem) => sentence('x.zip', problem));
    throw error;
  }
  throw new Error('nothing was refused');
}
const refusals = (bytes: Uint8Array) => said(() => readBundle(bytes));
const jobText = (change: object) => JSON.stringify({ ...demo(), printer: 'a.printer.json', ...change });

it('takes a sound bundle, whoever packed it, folders and all', () => {
  const opened = readBundle(
    hostileBundle({
      besides: [{ name: 'made/', method: 0, madeBy: 3, attributes: (0o040755 << 16) | 0x10 }],
    }),
  );
  expect(opened.files.map(({ path }) => path)).toEqual(['a.job.json', 'a.printer.json', 'made/a.stl']);
  const { job, family } = bundledJob(opened, families);
  expect(job.printer).toEqual(demo().printer);
  expect(family.id).toBe('stabiliser-clip');
});

describe('a bundle is refused in one line that names the entry', () => {
  const link = { madeBy: 3, attributes: 0o120777 << 16 };
  it.each<[string, Uint8Array, RegExp]>([
    ['nothing', new Uint8Array(0), /an empty file - allowed: a bundle/],
    ['an STL', new TextEncoder().encode('solid a'), /no zip archive/],
    ['another archive', rawZip([{ name: 'a.txt', data: 'x' }]), /without fettle-bundle\.json in it/],
    ['the beginning of one', hostileBundle().subarray(0, 400), /ends before its directory/],
    ['a way out', hostileBundle({ besides: [{ name: '../a.sh' }] }), /"\.\.\/a\.sh"/],
    [
      'a way out, listed',
      hostileBundle({ files: soundAnd({ name: '../../x.stl', kind: 'stl' }) }),
      /"\.\.\/\.\.\/x\.stl"/,
    ],
    ['a fixed place', hostileBundle({ besides: [{ name: '/etc/x' }] }), /"\/etc\/x"/],
    ['a drive', hostileBundle({ besides: [{ name: 'C:x' }] }), /"C:x"/],
    ['a backslash', hostileBundle({ besides: [{ name: 'a\\b' }] }), /"a\\\\b"/],
    ['a zero', hostileBundle({ besides: [{ name: 'a\0b' }] }), /"a\\u0000b"/],
    ['a device', hostileBundle({ besides: [{ name: 'made/NUL.stl' }] }), /"made\/NUL\.stl" .*device/],
    ['a last point', hostileBundle({ besides: [{ name: 'a.stl.' }] }), /"a\.stl\." .*ends with a point/],
    [
      'a hidden file',
      hostileBundle({ files: soundAnd({ name: '.a.stl', kind: 'donor' }) }),
      /"\.a\.stl" .*begins with a point/,
    ],
    ['turned letters', hostileBundle({ besides: [{ name: 'a\u202elts' }] }), /"a\\u202elts" .*do not show/],
    [
      'letter case',
      hostileBundle({ besides: [{ name: 'MADE/A.STL' }] }),
      /"MADE\/A\.STL" is in it twice|twice/,
    ],
    [
      'the same name',
      hostileBundle({ besides: [{ name: 'made/a.stl' }] }),
      /"made\/a\.stl" is in the archive twice/,
    ],
    ['a link', hostileBundle({ files: soundBut('made/a.stl', link) }), /"made\/a\.stl" .*is a link/],
    ['a lock', hostileBundle({ files: soundBut('made/a.stl', { flags: 1 }) }), /"made\/a\.stl" .*encrypted/],
    ['unsaid letters', hostileBundle({ besides: [{ name: 'é', flags: 0 }] }), /"é" .*letters/],
    [
      'no letters',
      hostileBundle({ besides: [{ name: Uint8Array.of(0xff), flags: 0 }] }),
      /characters that do not show/,
    ],
    [
      'a bomb',
      hostileBundle({ files: soundAnd({ name: 'b.stl', kind: 'donor', data: new Uint8Array(3e6) }) }),
      /"b\.stl" grows from/,
    ],
    [
      'a lie about size',
      hostileBundle({ files: soundBut('made/a.stl', { size: 2 ** 31 }) }),
      /"made\/a\.stl" unpacks to 2147483648/,
    ],
    [
      'a file nobody listed',
      hostileBundle({ besides: [{ name: 'setup.exe' }] }),
      /"setup\.exe" - is there and not listed/,
    ],
    [
      'a list of what is not there',
      hostileBundle({ list: ({ files }) => files.push({ ...files[2]!, path: 'b.stl' }) }),
      /"b\.stl" - is listed and not there/,
    ],
    [
      'a list that lists twice',
      hostileBundle({ list: ({ files }) => files.push(files[2]!) }),
      /"made\/a\.stl" - is listed twice/,
    ],
    [
      'a list that lists itself',
      hostileBundle({ list: ({ files }) => files.push({ ...files[2]!, path: 'fettle-bundle.json' }) }),
      /"fettle-bundle\.json" - is listed twice, or is the list/,
    ],
    [
      'a script for a report',
      hostileBundle({ files: soundAnd({ name: 'run.sh', kind: 'report' }) }),
      /"run\.sh" - is listed as report; allowed: .*\.html/,
    ],
    [
      'a job in a folder',
      hostileBundle({ files: soundBut('a.job.json', { name: 'b/a.job.json' }) }),
      /"b\/a\.job\.json" - is listed as job/,
    ],
    [
      'two jobs',
      hostileBundle({ files: soundAnd({ name: 'b.job.json', kind: 'job', data: '{}' }) }),
      /2 files - are listed as job/,
    ],
    [
      'no job',
      hostileBundle({ list: ({ files: [job] }) => Object.assign(job!, { kind: 'result' }) }),
      /no job - is listed/,
    ],
    [
      'a changed file',
      hostileBundle({ list: ({ files }) => Object.assign(files[2]!, { sha256: sha256('x') }) }),
      /"made\/a\.stl" - is not what was bundled/,
    ],
    [
      'another length',
      hostileBundle({ list: ({ files }) => void files[2]!.bytes++ }),
      /"made\/a\.stl" - is not what was bundled/,
    ],
    [
      'no version',
      hostileBundle({ list: (list) => void delete list.fettleBundle }),
      /fettleBundle: - is missing; allowed: 1/,
    ],
    [
      'a later version',
      hostileBundle({ list: (list) => Object.assign(list, { fettleBundle: 2 }) }),
      /fettleBundle: 2 - comes from a newer Fettle/,
    ],
    [
      'a list with more in it',
      hostileBundle({ list: (list) => Object.assign(list, { filez: [] }) }),
      /fettle-bundle\.json filez: .*no field of a bundle.*Did you mean files/,
    ],
    [
      'a kind nobody knows',
      hostileBundle({ list: ({ files }) => Object.assign(files[2]!, { kind: 'exe' }) }),
      /files\[2\]\.kind: "exe"/,
    ],
    ['no JSON for a list', hostileBundle({ text: () => '{oops' }), /"fettle-bundle\.json": not JSON/],
    [
      'a name twice in the list',
      hostileBundle({ text: (text) => text.replace('{', '{"title":"b",') }),
      /a second time/,
    ],
    ['a list that is a list', hostileBundle({ text: () => '[]' }), /fettleBundle: - is missing/],
    [
      'no JSON for a job',
      hostileBundle({ files: soundBut('a.job.json', { data: 'hello' }) }),
      /"a\.job\.json": not JSON/,
    ],
    [
      'no UTF-8 for a job',
      hostileBundle({ files: soundBut('a.job.json', { data: Uint8Array.of(0xff, 0xfe) }) }),
      /"a\.job\.json": not UTF-8/,
    ],
  ])('%s', (_, bytes, line) => {
    const lines = refusals(bytes);
    expect(lines).toEqual([expect.stringMatching(line)]);
    expect(lines[0]).toMatch(/^x\.zip: .*allowed: \S/);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for.
    expect(lines[0]).not.toMatch(/[\u0000-\u001f\u202e]|undefined/);
  });

  it('and tells of the first twenty where there are many', () => {
    const besides = Array.from({ length: 100 }, (_, k) => ({ name: `../${k}` }));
    // The first name out of the archive ends the reading of its directory.
    expect(refusals(hostileBundle({ besides }))).toHaveLength(1);
    const unlisted = Array.from({ length: 100 }, (_, k) => ({ name: `x${k}` }));
    expect(refusals(hostileBundle({ besides: unlisted }))).toHaveLength(20);
  });
});

describe('the job of a bundle is refused with', () => {
  const withJob = (change: object) =>
    said(() =>
      bundledJob(
        readBundle(hostileBundle({ files: soundBut('a.job.json', { data: jobText(change) }) })),
        families,
      ),
    );
  it.each<[string, object, RegExp]>([
    [
      'a printer profile that is not in it',
      { printer: 'b.printer.json' },
      /printer: "b\.printer\.json" - is not there/,
    ],
    ['a printer profile elsewhere', { printer: '../a.printer.json' }, /printer: .* is not there/],
    [
      'a donor that is not in it',
      { family: 'donor', donor: { file: 'b.stl' } },
      /donor\.file: "b\.stl" - is not there/,
    ],
    ['a family nobody knows', { family: 'clip' }, /family: "clip"/],
    ['a version nobody knows', { fettle: 9 }, /fettle: 9 - comes from a newer Fettle/],
    ['a field nobody knows', { run: 'x' }, /run: /],
    ['words for a terminal', { title: 'a\u001b[2Jb' }, /title: .*control characters/],
    ['words for a terminal in a name', { 'a\u001b': 1 }, /control characters/],
  ])('%s', (_, change, line) => {
    expect(withJob(change)).toEqual([expect.stringMatching(line)]);
  });

  it('a printer profile that is none', () => {
    const bytes = hostileBundle({ files: soundBut('a.printer.json', { data: '{"fettlePrinter":2}' }) });
    expect(said(() => bundledJob(readBundle(bytes), families))[0]).toMatch(/printer\.name: - is missing/);
  });
});

describe('random damage is refused or does not matter, and nothing falls over:', () => {
  const text = JSON.stringify({ ...demo(), printer: 'a.printer.json' });
  const content = ({ manifest, files }: Bundle) => ({ manifest, files });
  it.each<[string, (damaged: Damages) => Uint8Array, (bytes: Uint8Array) => unknown, [number, number]]>([
    [
      'to the archive',
      (damaged) => damaged(hostileBundle()),
      (bytes) => expect(content(readBundle(bytes))).toEqual(content(readBundle(hostileBundle()))),
      // Times and attributes of entries may change, hardly anything else.
      [300, 5],
    ],
    [
      'to the list, packed again',
      (damaged) =>
        hostileBundle({ text: (list) => Buffer.from(damaged(Buffer.from(list))).toString('latin1') }),
      (bytes) => readBundle(bytes),
      [100, 5],
    ],
    [
      'to the job, listed and packed again',
      (damaged) => hostileBundle({ files: soundBut('a.job.json', { data: damaged(Buffer.from(text)) }) }),
      (bytes) => bundledJob(readBundle(bytes), families),
      [100, 5],
    ],
  ])('%s', (_, spoilt, use, [leastRefused, leastTaken]) => {
    let [refused, taken] = [0, 0];
    for (const list of fc.sample(edits, { seed: 20251126, numRuns: 400 })) {
      try {
        use(spoilt((file) => edited(file, list)));
        taken++;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        refused++;
        expect(error.problems.length).toBeGreaterThan(0);
        for (const problem of error.problems) expect(sentence('x', problem)).toMatch(/^x: .*allowed: \S/s);
      }
    }
    expect(refused).toBeGreaterThan(leastRefused);
    expect(taken).toBeGreaterThan(leastTaken);
  });
});
