import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

let bench: ReturnType<typeof workshop>;
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const inBench = (name: string) => join(bench.folder, name);
/** The demo job with its printer in a file of its own. */
beforeEach(() => {
  bench = workshop();
  writeFileSync(inBench('my.job.json'), JSON.stringify({ ...demo, printer: 'my.printer.json' }));
  writeFileSync(inBench('my.printer.json'), JSON.stringify(demo.printer));
});
afterEach(() => bench.clear());
const json = (name: string) => JSON.parse(readFileSync(inBench(name), 'utf8'));
const run = (name: string, args: readonly string[], input = '') =>
  fettle([name, 'my.job.json', ...args], { cwd: bench.folder, input });
const trial = (args: readonly string[], input = '') => run('trial', ['--date', '2026-12-03', ...args], input);
const files = () => ['my.job.json', 'my.printer.json'].map((name) => readFileSync(inBench(name), 'utf8'));

/** A print whose post came out 0.09 mm too wide, read. */
const readWide = () => run('inspect', ['--date', '2026-12-02'], '4.04\n4.05\n4.04\nquit\n');

describe('fettle trial', () => {
  it('puts on record what was said, teaches the profile, and shows what the next print changes and why', async () => {
    await readWide();
    const { code, stdout, stderr } = await trial([
      ...['--felt', 'socket=tight,bar=right', '--felt', 'drop=right'],
      ...['--broken', 'one arm of the mouth', '--note', 'seam at the back'],
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const [record] = json('my.job.json').trials;
    expect(record).toMatchObject({
      date: '2026-12-02',
      felt: { 'socket.width': 'tight', bar: 'right', drop: 'right' },
      broken: ['one arm of the mouth'],
      note: 'seam at the back',
      inspected: { readings: { 'socket.width': ['4.04', '4.05', '4.04'] } },
    });
    // Too wide is what the printer does to outer faces, so they grow more than its profile said.
    const profile = json('my.printer.json');
    expect(profile.outerGrowth.value).toBeGreaterThan(demo.printer.outerGrowth.value + 0.005);
    expect(profile.outerGrowth.u).toBeLessThan(demo.printer.outerGrowth.u);
    expect(record.learnt.before.outerGrowth).toEqual(demo.printer.outerGrowth);

    expect(stdout).toMatch(
      /^ {2}felt +post in socket, width tight; bar in slot right; underside to bar right$/m,
    );
    expect(stdout).toMatch(/socket tight is taken for socket\.width/);
    expect(stdout).toMatch(/^ {2}broken +one arm of the mouth: finding \d+, strain of the arms/m);
    const [, before, after] = /draw +post in socket, width (\S+) -> (\S+): felt tight/.exec(stdout) ?? [];
    expect(Number(before)).toBeCloseTo(record.sizes['socket.width'].drawn, 2);
    expect(Number(after)).toBeLessThan(Number(before) - 0.03);
    expect(stdout).toMatch(/^ {2}printer +printer 1 has learnt: .*growth of outer faces 0\.055 -> 0\.0/m);
    expect(stdout).toMatch(/^ {2}wrote my\.job\.json\n {2}wrote my\.printer\.json$/m);
    // What was announced is what make draws.
    const made = JSON.parse((await run('check', ['--json'])).stdout);
    const drawn = made.interfaces.find(({ id }: { id: string }) => id === 'socket.width').drawn;
    expect(drawn).toBeCloseTo(Number(after), 2);
  });

  it('takes the same from a pipe, line by line, and asks again where a word is none', async () => {
    await readWide();
    const typed = ['t', '', 'snug', 'Right', 'back', 'r', 'short', '', '', 'socket.width', 'one arm', ''];
    const { code, stdout } = await trial([], typed.map((line) => `${line}\n`).join(''));
    expect(code).toBe(0);
    expect(stdout).toMatch(/"snug" is none of tight, right, loose/);
    expect(stdout).toMatch(/short, right, long > short/);
    const [record] = json('my.job.json').trials;
    expect(record).toMatchObject({
      felt: { 'socket.width': 'tight', bar: 'right', drop: 'tight' },
      reworked: ['socket.width'],
      broken: ['one arm'],
    });
    expect(record.note).toBeUndefined();
  });

  it('leaves everything as it was where nothing is said, or somebody stops', async () => {
    const before = files();
    expect((await trial([], '\n\n')).stdout).toMatch(/nothing was said/);
    expect((await trial([], 't\nstop\n')).stdout).toMatch(/nothing is on record/);
    expect(files()).toEqual(before);
    expect(contents(bench.folder)).toHaveLength(2);
  });

  it('prints one object', async () => {
    await readWide();
    const { stdout } = await trial(['--felt', 'socket.width=tight', '--json']);
    expectFormat('trial', stdout);
    const told = JSON.parse(stdout);
    expect(told).toMatchObject({
      trial: { number: 1, felt: { 'socket.width': 'tight' } },
      printer: { name: 'printer 1', learnt: true },
      files: [
        { path: 'my.job.json', kind: 'job' },
        { path: 'my.printer.json', kind: 'printer' },
      ],
    });
    expect(told.trial.learnt).toBeUndefined();
    const { shift, u, printer, machine } = told.evidence['socket.width'];
    // Wider leaves less room; how much splits into printer and machine.
    expect(shift).toBeLessThan(-0.03);
    expect(u).toBeGreaterThan(0);
    expect(printer.mean + machine.mean).toBeCloseTo(shift, 9);
    const width = told.drawn.find(({ id }: { id: string }) => id === 'socket.width');
    expect(width.after).toBeLessThan(width.before);
    expect(told.chance.after).toBeGreaterThan(0);
  });

  it('counts a print that never went near the machine by its readings', async () => {
    await readWide();
    const { stdout } = await trial(['--not-tried']);
    expect(stdout).toMatch(/^ {2}felt +not tried$/m);
    expect(json('my.job.json').trials[0].felt).toEqual({});
    expect(json('my.printer.json').outerGrowth.value).toBeGreaterThan(demo.printer.outerGrowth.value);
  });

  it('holds the profile in the job where the job holds one, and none where there is none', async () => {
    writeFileSync(inBench('my.job.json'), JSON.stringify(demo));
    await trial(['--felt', 'socket.width=tight']);
    expect(json('my.job.json').printer.outerGrowth.value).toBeGreaterThan(demo.printer.outerGrowth.value);
    expect(json('my.printer.json')).toEqual(demo.printer);
    const { printer: _, ...bare } = demo;
    writeFileSync(inBench('my.job.json'), JSON.stringify(bare));
    const { stdout } = await trial(['--felt', 'socket.width=tight']);
    expect(stdout).toMatch(/this job names no printer profile/);
    expect(json('my.job.json').printer).toBeUndefined();
    expect(json('my.job.json').trials).toHaveLength(1);
  });
});

describe('fettle trial, history', () => {
  it('tells every print in order, and writes nothing', async () => {
    expect((await run('trial', ['--history'])).stdout).toMatch(/no print on record yet/);
    await readWide();
    await trial(['--felt', 'socket.width=tight', '--note', 'seam at the back']);
    await trial(['--felt', 'bar=right']);
    const before = files();
    const { stdout } = await run('trial', ['--history']);
    expect(stdout).toMatch(/2 prints on record/);
    expect(stdout).toMatch(/^1 {2}2 Dec 2026, PETG, printer 1, layer 0\.2 mm, made from [0-9a-f]{8}$/m);
    expect(stdout).toMatch(/^ +post in socket, width +3\.84 +3\.94 +4\.04 4\.05 4\.04$/m);
    expect(stdout).toMatch(/^ {2}note +seam at the back$/m);
    expect(stdout).toMatch(/^2 {2}3 Dec 2026/m);
    const { stdout: listed } = await run('trial', ['--history', '--json']);
    expectFormat('history', listed);
    const told = JSON.parse(listed);
    expect(
      told.trials.map(({ number, learnt }: { number: number; learnt: boolean }) => [number, learnt]),
    ).toEqual([
      [1, true],
      [2, true],
    ]);
    expect(files()).toEqual(before);
  });

  it('takes the last word back, and what was learnt from it, and keeps what was read', async () => {
    await readWide();
    const before = [json('my.job.json'), json('my.printer.json')];
    await trial(['--felt', 'socket.width=tight', '--broken', 'nothing much']);
    const { code, stdout } = await run('trial', ['--undo']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/took back what was said of the print of 2 Dec 2026; its readings stay/);
    expect([json('my.job.json'), json('my.printer.json')]).toEqual(before);
    // Of a print that nobody read nothing is left.
    writeFileSync(inBench('my.job.json'), JSON.stringify({ ...demo, printer: 'my.printer.json' }));
    await trial(['--felt', 'bar=loose']);
    expectFormat('undone', (await run('trial', ['--undo', '--json'])).stdout);
    expect(json('my.job.json')).toEqual({ ...demo, printer: 'my.printer.json' });
    expect(json('my.printer.json')).toEqual(demo.printer);
  });

  it('does not take back what something rests on', async () => {
    await trial(['--felt', 'bar=loose']);
    const profile = json('my.printer.json');
    writeFileSync(inBench('my.printer.json'), JSON.stringify({ ...profile, lineWidth: 0.45 }));
    const before = files();
    const { code, stderr } = await run('trial', ['--undo']);
    expect(code).toBe(2);
    expect(stderr).toMatch(
      /--undo: printer 1 - has changed since it learnt from that print; allowed: another record/,
    );
    expect(files()).toEqual(before);
  });

  it('a word once said of a print stays', async () => {
    await trial(['--felt', 'bar=loose']);
    const before = files();
    const { code, stderr } = await trial(['--last', '--felt', 'bar=tight']);
    expect(code).toBe(2);
    expect(stderr).toMatch(
      /--felt bar: tight - was said otherwise of the same print; allowed: loose, as is on record/,
    );
    expect(files()).toEqual(before);
    await trial(['--last', '--felt', 'socket.width=right']);
    expect(json('my.job.json').trials).toHaveLength(1);
    expect(json('my.job.json').trials[0].felt).toEqual({ bar: 'loose', 'socket.width': 'right' });
  });
});

describe('fettle trial refuses, and leaves both files alone', () => {
  it.each([
    [
      'all that is wrong, at once',
      ['--felt', 'sockt=tight,bar=snug', '--reworked', 'mouht'],
      3,
      /Did you mean socket\?$/m,
    ],
    ['a date that is none', ['--felt', 'bar=right', '--date', 'today'], 1, /^--date: "today"/],
    ['a look back and a word', ['--history', '--felt', 'bar=right'], 1, /cannot be used with/],
    ['nothing to take back', ['--undo'], 1, /--undo: no print on record/],
  ])('%s', async (_, args, lines, said) => {
    const before = files();
    const { code, stderr } = await run('trial', args);
    expect(code).toBe(2);
    expect(stderr).toMatch(said);
    expect(stderr.trim().split('\n')).toHaveLength(lines);
    expect(files()).toEqual(before);
  });
});
