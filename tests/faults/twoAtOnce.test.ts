// Two processes at work on one job or one printer: what both take is there in the end, or one of them says why not.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { command, demoJob, fettle, workshop } from '../cli/fettle.ts';

const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const spacer = JSON.parse(readFileSync(new URL('../../parts/spacer/demo.job.json', import.meta.url), 'utf8'));
let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
  put('my.job.json', { ...demo, printer: 'my.printer.json' });
  put('my.printer.json', demo.printer);
});
afterEach(() => bench.clear());
const put = (name: string, content: object) =>
  writeFileSync(join(bench.folder, name), JSON.stringify(content));
const text = (name: string) => readFileSync(join(bench.folder, name), 'utf8');
const json = (name: string) => JSON.parse(text(name));
const here = () => ({ cwd: bench.folder });

/** A command that is asked line by line. */
class Session {
  readonly #child: ChildProcess;
  stdout = '';
  stderr = '';
  constructor(args: readonly string[]) {
    this.#child = spawn(process.execPath, [command, ...args], { cwd: bench.folder });
    this.#child.stdout!.setEncoding('utf8').on('data', (said: string) => {
      this.stdout += said;
    });
    this.#child.stderr!.setEncoding('utf8').on('data', (said: string) => {
      this.stderr += said;
    });
  }
  /** Until it has asked `times` times. */
  async asked(times: number): Promise<void> {
    while ((this.stdout.match(/ > (?=$|\S*\n)/gm)?.length ?? 0) < times)
      await once(this.#child.stdout!, 'data');
  }
  type(...lines: readonly string[]): void {
    this.#child.stdin!.write(lines.map((line) => `${line}\n`).join(''));
  }
  async end(): Promise<number | null> {
    this.#child.stdin!.end();
    const [code] = await once(this.#child, 'close');
    return code as number | null;
  }
}

it('measure and measure: every reading of both is there', async () => {
  put('my.job.json', { ...demo, readings: {} });
  const both = [new Session(['measure', 'my.job.json']), new Session(['measure', 'my.job.json'])] as const;
  await Promise.all(both.map((one) => one.asked(1)));
  both[0].type('1.60', '1.61', '1.62', 'quit');
  both[1].type('1.70', '1.71', '1.72', 'drop 2', 'quit');
  expect(await Promise.all(both.map((one) => one.end()))).toEqual([0, 0]);
  // What one of them takes back is its own reading, whatever place it has by then.
  expect(json('my.job.json').readings.barDiameter.sort()).toEqual(['1.60', '1.61', '1.62', '1.70', '1.72']);
  expect(readdirSync(bench.folder).sort()).toEqual(['my.job.json', 'my.printer.json']);
});

it('make while somebody measures: a part of a whole job, and every reading', async () => {
  put('small.job.json', spacer);
  const reading = Object.keys(spacer.readings)[0]!;
  const measuring = new Session(['measure', 'small.job.json', '--only', reading, '--again']);
  await measuring.asked(1);
  const before = spacer.readings[reading] as readonly string[];
  const typed = Array.from({ length: 3 }, (_, k) => before[k % before.length]!);
  const making = fettle(['make', 'small.job.json', '--out', 'out'], here());
  measuring.type(...typed, 'quit');
  expect(await measuring.end()).toBe(0);
  const { code, stderr } = await making;
  expect(stderr).toBe('');
  expect([0, 3]).toContain(code);
  expect(json('small.job.json').readings[reading]).toEqual([...before, ...typed]);
});

it('trial while somebody measures: the record and every reading', async () => {
  const measuring = new Session(['measure', 'my.job.json', '--only', 'barDiameter']);
  const trying = new Session(['trial', 'my.job.json']);
  await Promise.all([measuring.asked(1), trying.asked(1)]);
  measuring.type('1.6', 'quit');
  expect(await measuring.end()).toBe(0);
  trying.type('right');
  expect(await trying.end()).toBe(0);
  const { readings, trials } = json('my.job.json');
  expect(readings.barDiameter).toEqual([...demo.readings.barDiameter, '1.6']);
  expect(trials).toHaveLength(1);
  expect(Object.values(trials[0].felt)).toEqual(['right']);
});

it('trial and trial: the first word stands, the second is told', async () => {
  const late = new Session(['trial', 'my.job.json']);
  await late.asked(1);
  expect((await fettle(['trial', 'my.job.json', '--felt', 'bar=loose'], here())).code).toBe(0);
  const before = [text('my.job.json'), text('my.printer.json')];
  late.type('tight');
  expect(await late.end()).toBe(2);
  expect(late.stderr.trimEnd().split('\n')).toHaveLength(1);
  expect(late.stderr).toMatch(/somebody else has spoken of this print meanwhile|was changed meanwhile/);
  expect([text('my.job.json'), text('my.printer.json')]).toEqual(before);
});

it('inspect and inspect: readings of both are in one record', async () => {
  const slow = new Session(['inspect', 'my.job.json']);
  await slow.asked(1);
  writeFileSync(join(bench.folder, 'read.csv'), 'interface,reading\nsocket.width,3.90\nbar,1.80\n');
  expect((await fettle(['inspect', 'my.job.json', '--readings', 'read.csv'], here())).stderr).toBe('');
  slow.type('3.95', 'quit');
  expect([0, 3]).toContain(await slow.end());
  const { trials } = json('my.job.json');
  expect(trials).toHaveLength(1);
  expect(trials[0].inspected.readings).toEqual({ 'socket.width': ['3.90', '3.95'], bar: ['1.80'] });
});

describe('a coupon is read while a trial teaches the printer', () => {
  const { features } = coupon(defaultPrinter);
  const lines = features.flatMap(({ nominal, times }, k) =>
    Array.from({ length: times }, (_, n) => (nominal + 0.01 * ((k + n) % 3)).toFixed(2)),
  );

  it('calibrate is refused, what was learnt stays, and the readings are saved for the next run', async () => {
    const reading = new Session(['calibrate', 'my.printer.json']);
    await reading.asked(1);
    expect((await fettle(['trial', 'my.job.json', '--felt', 'socket=tight'], here())).code).toBe(0);
    const learnt = text('my.printer.json');
    reading.type(...lines);
    expect(await reading.end()).toBe(2);
    expect(reading.stderr).toBe(
      'my.printer.json: was changed meanwhile - allowed: the file as it was when this began; nothing was written, so run it again\n',
    );
    expect(text('my.printer.json')).toBe(learnt);
    expect(Object.values(json('my.printer-readings.json').readings).flat()).toEqual(lines);
    const again = await fettle(['calibrate', 'my.printer.json'], here());
    expect({ code: again.code, stderr: again.stderr }).toEqual({ code: 0, stderr: '' });
    expect(json('my.printer.json').calibration).toBeDefined();
  });

  it('two at one coupon: every reading of both', async () => {
    const both = [
      new Session(['calibrate', 'my.printer.json']),
      new Session(['calibrate', 'my.printer.json']),
    ];
    await Promise.all(both.map((one) => one.asked(1)));
    both[0]!.type(lines[0]!, 'quit');
    both[1]!.type(lines[1]!, 'quit');
    expect(await Promise.all(both.map((one) => one.end()))).toEqual([0, 0]);
    const taken = json('my.printer-readings.json').readings[features[0]!.id];
    expect([...taken].sort()).toEqual([lines[0]!, lines[1]!].sort());
  });
});

it('two batches into one folder: files that belong together, as one alone makes them', async () => {
  for (const name of ['a', 'b']) put(`${name}.job.json`, { ...spacer, title: name });
  const make = (out: string) =>
    fettle(['make', 'a.job.json', 'b.job.json', '--hands', '1', '--out', out], here());
  const ended = await Promise.all([make('out'), make('out')]);
  expect(ended.map(({ stderr }) => stderr)).toEqual(['', '']);
  expect(readdirSync(join(bench.folder, 'out')).sort()).toEqual(['a.json', 'a.stl', 'b.json', 'b.stl']);
  // What is kept has the hashes that its result states, and the result that of its job.
  expect((await make('out')).stdout).toContain('0 made, 2 kept as they were');
  for (const name of ['a', 'b']) expect(json(join('out', `${name}.json`)).job.title).toBe(name);
});
