import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { command, contents, demoJob, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
  writeFileSync(inBench('my.job.json'), JSON.stringify(demo));
});
afterEach(() => bench.clear());
const inBench = (name: string) => join(bench.folder, name);
const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const job = () => JSON.parse(readFileSync(inBench('my.job.json'), 'utf8'));
const print = (k = 0) => job().trials[k];
const inspect = (args: readonly string[] = [], input = '') =>
  fettle(['inspect', 'my.job.json', '--date', '2026-12-03', ...args], { cwd: bench.folder, input });
const lines = (...typed: string[]) => typed.map((text) => `${text}\n`).join('');
/** A print as expected, three readings of each size in the order asked; the demo's callipers show 0.01 closed. */
const asExpected = lines(
  ...['3.95', '3.94', '3.95', '4.22', '4.21', '4,22', '1.80', '1.81', '1.80'],
  ...['4.04', '4.05', '4.04', '2.74', '2.75', '2.74', '1.41', '1.41', '1.42'],
);

describe('fettle inspect, at the bench', () => {
  it('takes a whole print from a pipe, keeps it as typed, and passes it', async () => {
    const { code, stdout, stderr } = await inspect([], asExpected);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { trials, ...rest } = job();
    expect(rest).toEqual(demo);
    expect(trials).toHaveLength(1);
    expect(trials[0].date).toBe('2026-12-03');
    expect(trials[0].felt).toBeUndefined();
    expect(trials[0].inspected.readings).toEqual({
      'socket.width': ['3.95', '3.94', '3.95'],
      'socket.length': ['4.22', '4.21', '4,22'],
      bar: ['1.80', '1.81', '1.80'],
      drop: ['4.04', '4.05', '4.04'],
      'bar.run': ['2.74', '2.75', '2.74'],
      mouth: ['1.41', '1.41', '1.42'],
    });
    expect(stdout.match(/^ {2}PASS {2}/gm)).toHaveLength(6);
    expect(stdout).toMatch(/try it on the machine, gently.*then fettle trial my\.job\.json$/m);
    expect(stdout).not.toMatch(/the maker likely meant/);
    // A second time there is nothing to ask, whatever is typed, and another print is a word away.
    const before = readFileSync(inBench('my.job.json'), 'utf8');
    expect((await inspect([], '9\n9\n')).stdout).toMatch(/^ {2}PASS {2}/m);
    expect(readFileSync(inBench('my.job.json'), 'utf8')).toBe(before);
    await inspect(['--again'], lines('3.97', 'quit'));
    expect(
      job().trials.map(({ inspected }: { inspected: { readings: object } }) => inspected.readings),
    ).toEqual([trials[0].inspected.readings, { 'socket.width': ['3.97'] }]);
  });

  it('records the hash of the job that the STL carries', async () => {
    const { stdout } = await fettle(['check', 'my.job.json', '--json'], { cwd: bench.folder });
    await inspect([], lines('3.95', 'quit'));
    expect(print().made).toBe(JSON.parse(stdout).job.hash);
  });

  it('has every reading on the disk before it asks for the next, so that a power cut loses none', async () => {
    const child = spawn(process.execPath, [command, 'inspect', 'my.job.json'], { cwd: bench.folder });
    let said = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    const asked = (prompt: string) =>
      new Promise<void>((resolve) => {
        const look = () => {
          if (said.endsWith(prompt)) resolve();
        };
        child.stdout.on('data', look);
        look();
      });
    await asked('1 of 3 > ');
    expect(job().trials).toBeUndefined();
    child.stdin.write('3.95\n');
    await asked('2 of 3 > ');
    expect(print().inspected.readings).toEqual({ 'socket.width': ['3.95'] });
    child.stdin.write('3.96\n');
    await asked('3 of 3 > ');
    child.kill('SIGKILL');
    await new Promise((resolve) => child.on('close', resolve));
    expect(print().inspected.readings).toEqual({ 'socket.width': ['3.95', '3.96'] });
    expect(contents(bench.folder)).toHaveLength(1);
    // And goes on where it stopped, with the same print.
    const { stdout } = await inspect([], lines('3.95', 'quit'));
    expect(stdout).toContain('so far 3.95   3.96');
    expect(job().trials).toHaveLength(1);
    expect(print().inspected.readings['socket.width']).toEqual(['3.95', '3.96', '3.95']);
  });

  it('says what to file, keeps what is read after that apart, and passes it then', async () => {
    const wide = lines('4.06', '4.07', '4.06', 'quit');
    const first = await inspect([], wide);
    expect(first.code).toBe(3);
    expect(first.stdout).toMatch(/^ {2}REWORK +post in socket, width: take 0\.\d\d mm off in all/m);
    expect(first.stdout).toMatch(/^ {2}mind +a file has a handle/m);
    expect(first.stdout).toMatch(/next .*fettle inspect my\.job\.json --reworked socket\.width$/m);
    const filed = await inspect(['--reworked', 'socket.width'], lines('3.95', '3.94', '3.95'));
    expect(filed.code).toBe(0);
    expect(print()).toMatchObject({
      reworked: ['socket.width'],
      inspected: {
        readings: { 'socket.width': ['4.06', '4.07', '4.06'] },
        after: { 'socket.width': ['3.95', '3.94', '3.95'] },
      },
    });
    // Filed once more, the readings in between say nothing now; what the printer did stays.
    await inspect(['--reworked', 'socket'], 'quit\n');
    expect(print().inspected.after).toEqual({});
    expect(print().inspected.readings).toEqual({ 'socket.width': ['4.06', '4.07', '4.06'] });
  });

  it('asks for doubtful readings again before anything else, and lets the slip be dropped', async () => {
    const { stdout, code } = await inspect([], lines('3.95', '3.94', '4.40', 'quit'));
    expect(code).toBe(3);
    expect(stdout).toMatch(/read it again before anything else/);
    expect(stdout).toMatch(/next +fettle inspect my\.job\.json --only socket\.width$/m);
    const again = await inspect(['--only', 'socket.width'], lines('drop 3', '3.95', 'quit'));
    expect(print().inspected.readings['socket.width']).toEqual(['3.95', '3.94', '3.95']);
    expect(again.code).toBe(0);
  });

  it('takes a job that draws it otherwise for another print, unless told', async () => {
    await inspect([], lines('3.95', 'quit'));
    const { trials } = job();
    const wider = { ...demo.readings, socketWidth: ['4.20', '4.21', '4.20'] };
    writeFileSync(inBench('my.job.json'), JSON.stringify({ ...demo, readings: wider, trials }));
    const { stdout } = await inspect(['--last'], lines('3.96', 'quit'));
    expect(print().inspected.readings['socket.width']).toEqual(['3.95', '3.96']);
    expect(stdout).toMatch(/the print is as drawn; the size of the machine/);
    const other = await inspect([], lines('4.10', 'quit'));
    expect(other.stdout).toMatch(/the job has changed since print 1 was read.*--last/);
    expect(job().trials).toHaveLength(2);
  });
});

describe('fettle inspect, from a file', () => {
  const table = 'interface,reading\nsocket.width,3.95,3.94\nbar;1,80\n'.replace(
    'bar;1,80',
    'bar,"1,80",1.81',
  );

  it('takes CSV and JSON, once however often', async () => {
    writeFileSync(inBench('print.csv'), table);
    const { code, stderr } = await inspect(['--readings', 'print.csv']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const read = { 'socket.width': ['3.95', '3.94'], bar: ['1,80', '1.81'] };
    expect(print().inspected.readings).toEqual(read);
    const before = readFileSync(inBench('my.job.json'), 'utf8');
    await inspect(['--readings', 'print.csv']);
    expect(readFileSync(inBench('my.job.json'), 'utf8')).toBe(before);
    // More of the same goes on; something else stands beside.
    writeFileSync(
      inBench('print.json'),
      JSON.stringify({ bar: ['1,80', '1.81', 1.8], 'socket.width': [3.96] }),
    );
    await inspect(['--readings', 'print.json']);
    expect(print().inspected.readings).toEqual({
      'socket.width': ['3.95', '3.94', 3.96],
      bar: ['1,80', '1.81', 1.8],
    });
  });

  it('prints one object, numbers and words, and nothing else', async () => {
    writeFileSync(inBench('print.csv'), 'socket.width,4.06,4.07,4.06\n');
    const { code, stdout } = await inspect(['--readings', 'print.csv', '--json']);
    expect(code).toBe(3);
    expectFormat('inspection', stdout);
    const told = JSON.parse(stdout);
    expect(told).toMatchObject({
      verdict: 'rework',
      trial: { number: 1, date: '2026-12-03' },
      rules: { decision: { pass: 0.95 } },
    });
    expect(told.interfaces).toHaveLength(1);
    const [one] = told.interfaces;
    // Machine less print: 4.026 read of the socket, 4.0633 of the post, both with the zero of 0.01 in them.
    expect(one.clearance.value).toBeCloseTo(4.026 - (4.06 + 4.07 + 4.06) / 3, 6);
    expect(one.chance + one.risk.below + one.risk.above).toBeCloseTo(1, 3);
    expect(one.rework.off).toBeCloseTo(0.075 - one.clearance.value, 1);
    expect(one.rework.tool).toBe('flat file');
    expect(told.cautions.length).toBeGreaterThan(0);
    expect(told.unread).toHaveLength(5);
  });

  it('says once that a row holds too many, and no more of a table of something else than anybody reads', async () => {
    writeFileSync(inBench('bad.csv'), `bar${',x'.repeat(101)}\n`);
    const one = await inspect(['--readings', 'bad.csv']);
    expect(one.code).toBe(2);
    expect(one.stderr).toBe('bad.csv: line 1: 101 readings of bar - allowed: at most 100 of one interface\n');
    writeFileSync(inBench('bad.csv'), 'January,31\n'.repeat(5000));
    const said = (await inspect(['--readings', 'bad.csv'])).stderr.trim().split('\n');
    expect(said).toHaveLength(101);
    expect(said[99]).toMatch(/^bad\.csv: line 100: January /);
    expect(said[100]).toBe('bad.csv: 4900 more like these');
  });

  it('refuses with every problem, one line each, and leaves the job alone', async () => {
    writeFileSync(inBench('bad.csv'), 'sockt.width,3.9\nbar,17.9\nsocket,3\nmouth,wide\n');
    const before = readFileSync(inBench('my.job.json'), 'utf8');
    const { code, stderr } = await inspect(['--readings', 'bad.csv']);
    expect(code).toBe(2);
    const said = stderr.trim().split('\n');
    expect(said).toHaveLength(4);
    expect(said[0]).toMatch(/^bad\.csv: line 1: sockt\.width .*Did you mean socket\.width\?$/);
    expect(said[1]).toMatch(/line 2: bar: "17\.9".*allowed: /);
    expect(said[2]).toMatch(/stands for several; allowed: one of socket\.width, socket\.length$/);
    expect(said[3]).toMatch(/line 4: mouth: "wide"/);
    expect(readFileSync(inBench('my.job.json'), 'utf8')).toBe(before);
  });
});

describe('fettle inspect refuses, and leaves the job alone', () => {
  it.each([
    ['a date that is none', ['--date', '3.12.2026'], /^--date: "3\.12\.2026" .*YYYY-MM-DD/],
    ['an interface that is none', ['--only', 'baar'], /Did you mean bar\?/],
    ['two ways at once', ['--again', '--last'], /cannot be used with/],
  ])('%s', async (_, args, said) => {
    const { code, stderr } = await fettle(['inspect', 'my.job.json', ...args], { cwd: bench.folder });
    expect(code).toBe(2);
    expect(stderr).toMatch(said);
    expect(job()).toEqual(demo);
  });

  it('a job without the readings that a part needs, as make does', async () => {
    const { socketWidth: _, ...readings } = demo.readings;
    writeFileSync(inBench('my.job.json'), JSON.stringify({ ...demo, readings }));
    const { code, stderr } = await inspect();
    const made = await fettle(['make', 'my.job.json'], { cwd: bench.folder });
    expect([code, stderr]).toEqual([made.code, made.stderr]);
    expect(stderr).toMatch(/readings\.socketWidth: - \(socket width\) has not been read/);
  });
});
