import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { volumeOf } from '../output/meshes.ts';
import { readStl } from '../output/readStl.ts';
import { contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());
const here = () => ({ cwd: bench.folder });
const inBench = (name: string) => join(bench.folder, name);
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const writeJob = (change: object = {}, name = 'my.job.json') =>
  writeFileSync(inBench(name), JSON.stringify({ ...demo, ...change }, null, 1));
/** The demo job after `fettle ladder my.job.json socket`. */
let printed = '';
beforeAll(async () => {
  const { folder, clear } = workshop();
  writeFileSync(join(folder, 'my.job.json'), JSON.stringify(demo));
  await fettle(['ladder', 'my.job.json', 'socket'], { cwd: folder });
  printed = readFileSync(join(folder, 'my.job.json'), 'utf8');
  clear();
});
const printedJob = () => writeFileSync(inBench('my.job.json'), printed);
const json = (name: string) => JSON.parse(readFileSync(inBench(name), 'utf8'));
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const ladder = (...args: string[]) => fettle(['ladder', 'my.job.json', ...args], here());

describe('fettle ladder, drawn', () => {
  it('writes the strip, its picture and what the job has to remember, and tells of them in JSON', async () => {
    writeJob();
    const { code, stdout, stderr } = await ladder('socket', '--out', 'out', '--json');
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expectFormat('ladder', stdout);
    const told = JSON.parse(stdout);
    expect(contents(bench.folder).map((entry) => entry.split(' ')[0])).toEqual([
      'my.job.json',
      'out',
      'out/my-ladder-socket.png',
      'out/my-ladder-socket.stl',
    ]);
    for (const { path, sha256: stated } of told.files)
      expect(stated).toBe(sha256(readFileSync(inBench(path))));
    const triangles = readStl(new Uint8Array(readFileSync(inBench('out/my-ladder-socket.stl'))));
    expect(triangles).toHaveLength(told.files[0].triangles);
    expect(volumeOf(triangles)).toBeCloseTo(told.print.volume, 2);
    // PETG 1.27 g/cm3; a strip of minutes, not of an evening.
    expect(told.print.mass).toBeCloseTo((told.print.volume / 1000) * 1.27, 6);
    expect(told.print.mass).toBeLessThan(4);
    expect(told.print.minutes).toBeLessThan(20);
    expect(told.free).toBe(true);
    expect(told.rungs.map(({ number }: { number: number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    const png = PNG.sync.read(readFileSync(inBench('out/my-ladder-socket.png')));
    expect(png.width).toBeGreaterThan(png.height);

    const { ladders, ...rest } = json('my.job.json');
    expect(rest).toEqual(demo);
    expect(Object.keys(ladders)).toEqual(['socket']);
    const { rungs, felt, date } = ladders.socket;
    expect(felt).toBeUndefined();
    expect(date).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(rungs).toEqual(
      told.rungs.map(({ drawn, clearance }: { drawn: object; clearance: object }) => ({ drawn, clearance })),
    );
  });

  it('draws the same bytes again, and any number of ladders side by side', async () => {
    writeJob();
    await ladder('socket');
    const first = readFileSync(inBench('out/my-ladder-socket.stl'));
    await ladder('bar', '--rungs', '3', '--step', '0,05 mm');
    await ladder('socket');
    expect(readFileSync(inBench('out/my-ladder-socket.stl'))).toEqual(first);
    const { ladders } = json('my.job.json');
    expect(Object.keys(ladders).sort()).toEqual(['bar', 'socket']);
    expect(ladders.bar.rungs).toHaveLength(3);
    expect(ladders.bar.rungs[2].clearance.bar - ladders.bar.rungs[1].clearance.bar).toBeCloseTo(0.05, 5);
  });

  it('tells a person what to print, how to try it and what to type then', async () => {
    writeJob();
    const { stdout } = await ladder('bar');
    expect(stdout.split('\n')[0]).toBe(`${demo.title} - ladder of bar - PETG, printer 1`);
    expect(stdout).toMatch(/^ {2}1 +-?0\.0\d\d .*tightest$/m);
    expect(stdout).toMatch(/^ {2}4 .*as the part would be made$/m);
    expect(stdout).toMatch(/about \d+ min \(.*mm\/s/);
    expect(stdout).toMatch(/start with 7, the loosest.*stop before you need force/);
    expect(stdout).toContain('Old keycaps are brittle');
    expect(stdout).toContain('fettle ladder my.job.json bar --felt N');
    expect(stdout).toContain('wrote out/my-ladder-bar.stl');
    expect(stdout).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('fettle ladder, judged', () => {
  it('puts what felt right into job and profile, and the part is drawn for it', async () => {
    printedJob();
    const before = JSON.parse((await fettle(['check', 'my.job.json', '--json'], here())).stdout);
    const { code, stdout, stderr } = await ladder('socket', '--felt', '6', '--json');
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expectFormat('verdict', stdout);
    const told = JSON.parse(stdout);
    // Number 6 is 0.1 mm looser than the part would be; half of that and more is believed.
    expect(told.shift.value).toBeLessThan(-0.03);
    expect(told.shift.value).toBeGreaterThan(-0.1);
    expect(told.shift.u).toBeLessThan(told.shift.before.u);
    expect(told.printer).toEqual({ name: 'printer 1', learnt: true });

    const { ladders, printer, ...rest } = json('my.job.json');
    const { printer: old, ...same } = demo;
    expect(rest).toEqual(same);
    expect(ladders.socket.felt).toEqual({ tight: [], right: [], loose: [], best: 6 });
    // The post printed larger than thought: its faces grow more.
    expect(printer.outerGrowth.value).toBeGreaterThan(old.outerGrowth.value);
    expect(printer.outerGrowth.u).toBeLessThan(old.outerGrowth.u);
    expect(printer.boreShrink).toEqual(old.boreShrink);

    const after = JSON.parse((await fettle(['check', 'my.job.json', '--json'], here())).stdout);
    const width = (result: { interfaces: { id: string; drawn: number; u: number }[] }) =>
      result.interfaces.find(({ id }) => id === 'socket.width')!;
    expect(width(after).drawn - width(before).drawn).toBeCloseTo(told.shift.value, 2);
    expect(width(after).u).toBeLessThan(width(before).u);
  });

  it('takes several verdicts, and the last one given stands: the profile learns from it alone', async () => {
    printedJob();
    await ladder('socket', '--tight', '1 2', '--right', '3-4', '--loose', '6,7');
    const once = json('my.job.json');
    expect(once.ladders.socket.felt).toEqual({ tight: [1, 2], right: [3, 4], loose: [6, 7] });

    await ladder('socket', '--felt', '2');
    await ladder('socket', '--tight', '1,2', '--right', '3,4', '--loose', '6,7');
    expect(json('my.job.json')).toEqual(once);

    // From the start it comes to the same.
    printedJob();
    await ladder('socket', '--tight', '1-2', '--right', '3,4', '--loose', '6-7');
    expect(json('my.job.json')).toEqual(once);
  });

  it('leaves a profile alone that has changed since it learnt', async () => {
    printedJob();
    await ladder('socket', '--felt', '5');
    const job = json('my.job.json');
    job.printer.outerGrowth.value = 0.08;
    writeFileSync(inBench('my.job.json'), JSON.stringify(job));
    const { stdout } = await ladder('socket', '--felt', '3');
    expect(stdout).toContain('has changed since');
    expect(json('my.job.json').printer).toEqual(job.printer);
    expect(json('my.job.json').ladders.socket.felt.best).toBe(3);
  });

  it('goes on from what was felt when the ladder is drawn again, and the printer learns once', async () => {
    printedJob();
    await ladder('socket', '--felt', '6');
    const first = json('my.job.json');
    await ladder('socket');
    const again = json('my.job.json').ladders.socket;
    expect(again.felt).toBeUndefined();
    expect(again.earlier).toBe(true);
    expect(again.doubt.u).toBeLessThan(first.ladders.socket.doubt.u);
    // The middle of the new strip is what the old one said.
    const middle = (job: { rungs: { drawn: Record<string, number> }[] }) =>
      job.rungs[3]!.drawn['socket.width']!;
    expect(middle(again)).toBeLessThan(middle(first.ladders.socket) - 0.03);
    await ladder('socket', '--felt', '4');
    const { printer } = json('my.job.json');
    expect(printer.outerGrowth.u).toBeGreaterThan(0.8 * first.printer.outerGrowth.u);
    expect(json('my.job.json').ladders.socket.learnt.before).toEqual(first.ladders.socket.learnt.before);
  });

  it('writes the profile beside the job, through a link, and the name of it stays in the job', async () => {
    writeFileSync(inBench('real.json'), JSON.stringify(demo.printer));
    symlinkSync('real.json', inBench('mine.printer.json'));
    writeJob({ printer: 'mine.printer.json' });
    await ladder('socket');
    expect(json('real.json')).toEqual(demo.printer);
    const { stdout } = await ladder('socket', '--felt', '5');
    expect(stdout).toMatch(/printer 1 has learnt: growth of outer faces/);
    expect(stdout).toContain('wrote mine.printer.json');
    expect(json('my.job.json').printer).toBe('mine.printer.json');
    expect(json('real.json').outerGrowth.value).not.toBe(demo.printer.outerGrowth.value);
    expect((await fettle(['check', 'my.job.json'], here())).stderr).toBe('');
  });

  it('teaches no printer that is nobody’s', async () => {
    const { printer: _, ...nobody } = demo;
    writeFileSync(inBench('my.job.json'), JSON.stringify(nobody));
    await ladder('socket');
    const { stdout, code } = await ladder('socket', '--felt', '5');
    expect(code).toBe(0);
    expect(stdout).toContain('names no printer profile');
    expect(json('my.job.json').printer).toBeUndefined();
  });

  it('remarks on what is unlikely, and takes it all the same', async () => {
    printedJob();
    const { stdout, code } = await ladder('socket', '--tight', '1-7');
    expect(code).toBe(0);
    expect(stdout).toContain('far from what was expected');
    expect(stdout).toContain('beyond the ladder');
    const mixed = await ladder('socket', '--tight', '3', '--right', '2');
    expect(mixed.stdout).toContain('not in order');
  });
});

describe('fettle ladder, refused', () => {
  it.each([
    ['an unknown surface', ['sockett'], /Did you mean socket\?/],
    ['an unknown surface to judge', ['barr', '--felt', '2'], /Did you mean bar\?/],
    [
      'a verdict before there is a ladder',
      ['bar', '--felt', '2'],
      /ladders\.bar.*not been drawn yet.*socket/,
    ],
    ['a number no rung has', ['socket', '--felt', '8'], /--felt: 8 - allowed: one number from 1 to 7/],
    ['several best ones', ['socket', '--felt', '3,4'], /--right takes several/],
    ['no number', ['socket', '--tight', 'two'], /--tight: "two" - allowed: numbers from 1 to 7/],
    ['an empty list', ['socket', '--loose', ','], /--loose/],
    ['a range backwards', ['socket', '--loose', '5-3'], /--loose/],
    [
      'a tight one looser than a loose one',
      ['socket', '--tight', '5', '--loose', '3'],
      /5 too tight; 3 too loose/,
    ],
    ['one number twice', ['socket', '--tight', '3', '--right', '3'], /each number once/],
    ['two rungs', ['socket', '--rungs', '2'], /--rungs: 2 - allowed: 3 to 15/],
    ['half a rung', ['socket', '--rungs', '3.5'], /whole number/],
    ['no step', ['socket', '--step', '0'], /--step: 0 - allowed: 0.01 to 1 mm/],
    ['a step that is no number', ['socket', '--step', 'fine'], /allowed: a number/],
    ['a post of nothing', ['socket', '--rungs', '15', '--step', '1'], /smaller step/],
    ['drawing and judging at once', ['socket', '--felt', '3', '--rungs', '5'], /cannot be used with/],
  ])('%s: one line, exit code 2, nothing written', async (_, args, words) => {
    printedJob();
    const before = [contents(bench.folder), readFileSync(inBench('my.job.json'), 'utf8')];
    const { code, stdout, stderr } = await ladder(...args);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(words);
    expect([contents(bench.folder), readFileSync(inBench('my.job.json'), 'utf8')]).toEqual(before);
  });

  it('says every wrong list', async () => {
    printedJob();
    const { stderr } = await ladder('socket', '--tight', '0', '--loose', '9');
    expect(stderr.trimEnd().split('\n')).toHaveLength(2);
  });

  it('leaves the job as it was when the picture cannot be written', async () => {
    writeJob();
    mkdirSync(inBench('out/my-ladder-socket.png'), { recursive: true });
    const before = [contents(bench.folder), readFileSync(inBench('my.job.json'), 'utf8')];
    const { code, stderr } = await ladder('socket');
    expect(code).toBe(2);
    expect(stderr).toContain('my-ladder-socket.png');
    expect([contents(bench.folder), readFileSync(inBench('my.job.json'), 'utf8')]).toEqual(before);
  });

  it('refuses a remembered ladder that was tampered with', async () => {
    printedJob();
    const job = json('my.job.json');
    delete job.ladders.socket.rungs[2].drawn['socket.width'];
    writeFileSync(inBench('my.job.json'), JSON.stringify(job));
    const { code, stderr } = await ladder('socket', '--felt', '3');
    expect(code).toBe(2);
    expect(stderr).toMatch(/ladders\.socket/);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});
