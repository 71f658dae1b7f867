import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { rawUnzip, rawZip } from '../archive/rawZip.ts';
import { hostileBundle, soundBut } from '../job/hostileBundle.ts';
import { bracket, stlOf } from './donorModel.ts';
import { contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const run = (...args: string[]) => fettle(args, { cwd: bench.folder });
const at = (...names: string[]) => join(bench.folder, ...names);
const bytesAt = (...names: string[]) => new Uint8Array(readFileSync(at(...names)));
const jsonAt = (...names: string[]) => JSON.parse(readFileSync(at(...names), 'utf8'));
const textOf = (bytes: Uint8Array) => Buffer.from(bytes).toString();
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const writeJob = (name: string, change: object = {}) =>
  writeFileSync(at(name), JSON.stringify({ ...demo, ...change }));

/** Refused with exit code 2 and nothing written; what was said, line by line. */
async function refused(...args: string[]): Promise<readonly string[]> {
  const before = contents(bench.folder);
  const { code, stdout, stderr } = await run(...args);
  expect({ code, stdout }, stderr).toEqual({ code: 2, stdout: '' });
  expect(contents(bench.folder)).toEqual(before);
  return stderr.trimEnd().split('\n');
}

describe('fettle bundle', () => {
  it('packs what make makes; opened elsewhere, the job makes the very same bytes', async () => {
    writeJob('clip.job.json');
    const terms = ['--author', 'M. Okafor', '--licence', 'cc by-sa 4.0'];
    const { code, stdout } = await run('bundle', 'clip.job.json', ...terms, '--json');
    expect(code).toBe(0);
    expectFormat('packed', stdout);
    const told = JSON.parse(stdout);
    expect(told.file).toMatchObject({ path: 'out/clip.fettle.zip', kind: 'bundle' });
    const files = new Map(rawUnzip(bytesAt('out', 'clip.fettle.zip')).map(({ name, data }) => [name, data]));
    expect(told.contents.map(({ path }: { path: string }) => path)).toEqual([...files.keys()].slice(1));

    // Who and on what terms is in the list and remembered in the job, as SPDX writes it.
    const said = { author: 'M. Okafor', licence: 'CC-BY-SA-4.0' };
    expectFormat('bundle', textOf(files.get('fettle-bundle.json')!));
    expect(JSON.parse(textOf(files.get('fettle-bundle.json')!))).toMatchObject(said);
    expect(jsonAt('clip.job.json')).toEqual({ ...demo, ...said });

    expect((await run('open', 'out/clip.fettle.zip', '--out', 'theirs')).code).toBe(0);
    expect(contents(at('theirs')).map((entry) => entry.split(' ')[0])).toEqual([
      'clip.job.json',
      'clip.printer.json',
    ]);
    await run('make', 'theirs/clip.job.json', '--out', 'made', '--3mf', '--drawing', '--report');
    for (const kind of ['stl', '3mf', 'svg', 'html'])
      expect(bytesAt('made', `clip.${kind}`)).toEqual(files.get(`made/clip.${kind}`));
    const packed = JSON.parse(textOf(files.get('made/clip.json')!));
    expect({ ...jsonAt('made', 'clip.json'), files: [] }).toEqual({ ...packed, files: [] });
  });

  it.each([
    ['a licence nobody knows', {}, ['--licence', 'CC-BY'], /--licence: "CC-BY" .*Did you mean CC-BY-4\.0\?/],
    ['such a licence in the job', { licence: 'free' }, [], /clip\.job\.json: licence: "free"/],
    ['an author of a thousand letters', {}, ['--author', 'x'.repeat(1000)], /--author: 1000 characters/],
    ['a job that is none', { family: 'x' }, [], /family: "x"/],
  ])('refuses %s', async (_, change, args, said) => {
    writeJob('clip.job.json', change);
    expect(await refused('bundle', 'clip.job.json', ...args)).toEqual([expect.stringMatching(said)]);
  });
});

describe('fettle open', () => {
  const profile = { ...defaultPrinter, name: 'workshop' };
  const ladder = {
    ...{ date: '2026-11-21', printer: 'printer 1', material: 'PETG', layer: 0.2 },
    rungs: [0, 1, 2].map((k) => ({
      drawn: { 'socket.width': 3.8 + k / 50 },
      clearance: { 'socket.width': k / 50 },
    })),
    ...{
      doubt: { u: 0.05, spread: 0.02 },
      window: { 'socket.width': [0, 0.15] },
      aim: { 'socket.width': 0.07 },
    },
  };

  it("puts one's own printer into the job, leaves out what was felt on another, and says the chance", async () => {
    const data = JSON.stringify({ ...demo, printer: 'a.printer.json', ladders: { socket: ladder } });
    writeFileSync(at('a.fettle.zip'), hostileBundle({ files: soundBut('a.job.json', { data }) }));
    writeFileSync(at('my.printer.json'), JSON.stringify(profile));
    const told = await run('open', 'a.fettle.zip', '--out', 'mine', '--printer', 'my.printer.json', '--json');
    expect(told.code).toBe(0);
    expectFormat('opened', told.stdout);
    const { without, now } = JSON.parse(told.stdout);
    expect(without).toEqual(['ladders']);
    expect(jsonAt('mine', 'a.job.json')).toEqual({ ...demo, printer: 'my.printer.json' });
    expect(jsonAt('mine', 'my.printer.json')).toEqual(profile);
    expect(contents(at('mine'))).toHaveLength(2);
    const check = JSON.parse((await run('check', 'mine/a.job.json', '--json')).stdout);
    expect(now).toEqual({ printer: 'workshop', calibrated: null, chance: check.chance });

    // A profile that lies there already is named where it is, and stays one.
    mkdirSync(at('bench', 'printers'), { recursive: true });
    writeFileSync(at('bench', 'printers', 'p.printer.json'), JSON.stringify(profile));
    const args = ['--out', 'bench', '--printer', 'bench/printers/p.printer.json', '--fresh'];
    const { stdout } = await run('open', 'a.fettle.zip', ...args);
    expect(stdout).toContain('next: fettle measure bench/a.job.json');
    expect(jsonAt('bench', 'a.job.json')).toMatchObject({
      printer: 'printers/p.printer.json',
      readings: {},
    });
    expect(contents(at('bench')).filter((entry) => entry.includes('printer.json'))).toHaveLength(1);
  });

  it('writes over nothing unless told so, and gives the rest when asked', async () => {
    writeFileSync(at('a.fettle.zip'), hostileBundle());
    expect((await run('open', 'a.fettle.zip', '--out', 'o')).code).toBe(0);
    // The same once more changes nothing.
    expect((await run('open', 'a.fettle.zip', '--out', 'o')).code).toBe(0);
    writeFileSync(at('o', 'a.printer.json'), 'mine');
    expect(await refused('open', 'a.fettle.zip', '--out', 'o')).toEqual([
      'o: a.printer.json: exists already - allowed: another folder for --out, or --replace',
    ]);
    expect((await run('open', 'a.fettle.zip', '--out', 'o', '--replace', '--all')).code).toBe(0);
    expect(jsonAt('o', 'a.printer.json')).toEqual(demo.printer);
    expect(readFileSync(at('o', 'made', 'a.stl'), 'utf8')).toBe('solid a\nendsolid a\n');
  });

  it('goes through no link that lies in the way', async () => {
    writeFileSync(at('a.fettle.zip'), hostileBundle());
    writeFileSync(at('precious'), 'precious');
    mkdirSync(at('o'));
    symlinkSync(at('precious'), at('o', 'a.job.json'));
    await refused('open', 'a.fettle.zip', '--out', 'o');
    await refused('open', 'a.fettle.zip', '--out', 'o', '--replace');
    expect(readFileSync(at('precious'), 'utf8')).toBe('precious');
  });

  it('brings the model along that a job refits', async () => {
    mkdirSync(at('models'));
    writeFileSync(at('models', 'bracket.stl'), await stlOf(bracket));
    const job = {
      fettle: 1,
      family: 'donor',
      donor: { file: './models\\bracket.stl', changes: [{ axis: 'z', by: '-3.4' }] },
    };
    writeFileSync(at('b.job.json'), JSON.stringify(job));
    // The neck becomes shorter, and something is wrong with that; whoever finds the bundle is told.
    const made = await run('bundle', 'b.job.json');
    expect(made.code).toBe(3);
    expect(made.stdout).toMatch(/ {2}X +(a finding fails|\d+ findings fail)/);
    expect(made.stdout).toContain('nobody named, no licence stated');
    const files = new Map(rawUnzip(bytesAt('out', 'b.fettle.zip')).map(({ name, data }) => [name, data]));
    expect(textOf(files.get('README.txt')!)).toContain('  X Found wrong: ');
    expect((await run('open', 'out/b.fettle.zip', '--out', 'theirs')).code).toBe(0);
    expect(bytesAt('theirs', 'models', 'bracket.stl')).toEqual(bytesAt('models', 'bracket.stl'));
    expect(jsonAt('theirs', 'b.job.json')).toEqual(job);
    await run('make', 'theirs/b.job.json', '--out', 'made');
    expect(bytesAt('made', 'b.stl')).toEqual(files.get('made/b.stl'));
    // Nobody was asked, so nothing is remembered.
    expect(jsonAt('b.job.json')).toEqual(job);
  });

  it.each<[string, string, string | Uint8Array, RegExp]>([
    ['what is not there', 'gone.zip', '', /gone\.zip: no such file/],
    ['a job', 'x.zip', JSON.stringify(demo), /x\.zip: no zip archive - allowed: a bundle/],
    ['another archive', 'x.zip', rawZip([{ name: 'a', data: 'b' }]), /without fettle-bundle\.json/],
    [
      'a way out of the folder',
      'x.zip',
      hostileBundle({ besides: [{ name: '../../x' }] }),
      /"\.\.\/\.\.\/x"/,
    ],
    [
      'a list of a later Fettle',
      'x.zip',
      hostileBundle({ list: (list) => Object.assign(list, { fettleBundle: 3 }) }),
      /comes from a newer Fettle/,
    ],
  ])('refuses %s', async (_, name, content, said) => {
    if (content !== '') writeFileSync(at(name), content);
    expect(await refused('open', name, '--out', 'o')).toEqual([expect.stringMatching(said)]);
  });

  it('refuses a printer profile that is none, and one whose name would be another file', async () => {
    writeFileSync(at('a.fettle.zip'), hostileBundle());
    writeFileSync(at('bad.json'), '{}');
    expect(await refused('open', 'a.fettle.zip', '--out', 'o', '--printer', 'bad.json')).toEqual([
      expect.stringMatching(/^bad\.json: fettlePrinter: /),
    ]);
    writeFileSync(at('A.job.json'), JSON.stringify(profile));
    expect(await refused('open', 'a.fettle.zip', '--out', 'o', '--printer', 'A.job.json')).toEqual([
      expect.stringMatching(/^o: --printer: "A\.job\.json" - is the name of a file in the bundle too/),
    ]);
  });
});

it.each(['make', 'check', 'measure', 'bundle'])(
  'fettle %s points from a bundle to opening it',
  async (command) => {
    writeFileSync(at('a.fettle.zip'), hostileBundle());
    expect(await refused(command, 'a.fettle.zip')).toEqual([
      expect.stringMatching(/a\.fettle\.zip: a zip archive .*"fettle open a\.fettle\.zip --out FOLDER"/),
    ]);
  },
);
