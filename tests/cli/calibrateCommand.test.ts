import { spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { printerProfileSchema } from '../../src/printer/profile.ts';
import { command, contents, fettle, workshop } from './fettle.ts';
import { expectFormat } from './validator.ts';

const { features } = coupon(defaultPrinter);

// What an invented printer prints of the coupon, by plain arithmetic: a little shrink along x and y, outer faces 0.08 mm
// out a side, bores 0.06 mm in a side and 0.1 mm2 over the bore besides, first layer 0.15 mm wider a side, level roofs
// 0.2 mm low. A hundredth or two of scatter, the same every time.
function printed(feature: (typeof features)[number], k: number): number {
  const { nominal, measurand, kind, reading } = feature;
  const [x, y, z] = measurand.direction;
  const scatter = 0.012 * Math.sin(7 * k + 1);
  if (Math.abs(z) > 0.9) return nominal - (measurand.roof ? 0.2 : 0) + scatter;
  const size = nominal * (x * x * 0.997 + y * y * 0.998);
  const opening = kind === 'bore' || kind === 'slot';
  const outer = kind === 'post' || kind === 'rib' ? 2 : 0;
  const width = size + outer * (0.08 + (measurand.atBed ? 0.15 : 0));
  const narrowed = opening ? 2 * 0.06 + 0.1 / (kind === 'bore' ? nominal : 2 * nominal) : 0;
  const across = width - narrowed + scatter;
  return reading.round ? Math.sqrt(across ** 2 - 0.3 ** 2) : across;
}

const texts = Object.fromEntries(
  features.map((feature, k) => [
    feature.id,
    Array.from({ length: feature.times }, (_, n) => (printed(feature, k) + 0.01 * (n % 2)).toFixed(2)),
  ]),
);
const csv = (rows: Readonly<Record<string, readonly string[]>> = texts): string =>
  `${Object.entries(rows)
    .map(([id, values]) => [id, ...values].join(','))
    .join('\n')}\n`;

let bench: ReturnType<typeof workshop>;
let printer: string;
const own = { ...defaultPrinter, name: 'Bench Ox', material: 'PETG' };
beforeEach(() => {
  bench = workshop();
  printer = join(bench.folder, 'my.printer.json');
  writeFileSync(printer, JSON.stringify(own));
});
afterEach(() => bench.clear());

const profile = () => JSON.parse(readFileSync(printer, 'utf8'));
const file = (text: string, name = 'readings.csv'): string => {
  const path = join(bench.folder, name);
  writeFileSync(path, text);
  return path;
};

describe('from a table of readings', () => {
  it('writes the profile in one go, and says what it found', async () => {
    const { code, stdout, stderr } = await fettle([
      'calibrate',
      printer,
      file(csv()),
      '--date',
      '2025-11-20',
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { scale, outerGrowth, levelSag, calibrated, calibration, name, material, bed } =
      printerProfileSchema.parse(profile());
    expect({ name, material, bed, calibrated }).toEqual({
      name: 'Bench Ox',
      material: 'PETG',
      bed: own.bed,
      calibrated: '2025-11-20',
    });
    // Against what the arithmetic above put in, to three uncertainties.
    expect(Math.abs(scale.x.value - 0.997)).toBeLessThan(3 * scale.x.u);
    expect(Math.abs(outerGrowth.value - 0.08)).toBeLessThan(3 * outerGrowth.u);
    expect(Math.abs(levelSag.value - 0.2)).toBeLessThan(3 * levelSag.u);
    expect(outerGrowth.u).toBeLessThan(0.012);
    expect(calibration!.readings).toEqual(texts);
    expect(calibration!.callipers).toBe('my callipers');
    expect(stdout).toContain(
      `Bench Ox - PETG - calibrated 2025-11-20 - ${features.length} of ${features.length} features`,
    );
    expect(stdout).toMatch(/outer faces stand out +0\.05 \+- 0\.12 +0\.0\d\d \+- 0\.01\d +mm a side/);
    expect(stdout).toMatch(/so 5\.00 drawn prints as {2}bore 4\.\d\d \+- 0\.\d\d/);
    expect(stdout).toContain('next: keep');
    expect(contents(bench.folder)).toHaveLength(2);
  });

  it('gives one JSON object when asked to', async () => {
    const { code, stdout } = await fettle([
      'calibrate',
      printer,
      file(csv()),
      '--json',
      '--date',
      '2025-11-20',
    ]);
    expect(code).toBe(0);
    expectFormat('calibration', stdout);
    const result = JSON.parse(stdout);
    expect(Object.keys(result).sort()).toEqual(
      [
        'degreesOfFreedom',
        'doubtful',
        'parameters',
        'profile',
        'remarks',
        'repeatability',
        'residuals',
      ].sort(),
    );
    expect(result.profile).toEqual(profile());
    expect(result.parameters[0]).toMatchObject({
      parameter: 'scale.x',
      prior: defaultPrinter.scale.x,
      determined: true,
    });
    expect(result.residuals.map(({ feature }: { feature: string }) => feature)).toEqual(
      features.map(({ id }) => id),
    );
    expect(result.doubtful).toEqual([]);
  });

  it('names two swapped digits first, and what to do', async () => {
    const id = features.find(({ kind, nominal }) => kind === 'bore' && nominal === 12)!.id;
    const [right] = texts[id]!;
    const wrong = `${right!.slice(0, 3)}${right![4]}${right![3]}`;
    const path = file(csv({ ...texts, [id]: [wrong] }));
    const { code, stdout } = await fettle(['calibrate', printer, path]);
    expect(code).toBe(0);
    const [, second] = stdout.split('\n');
    expect(second).toContain(`"${wrong}" does not fit (expected 11.`);
    expect(second).toContain(`two digits swapped? ${right} would fit; left out`);
    expect(stdout).toContain('next: read ');
    const { outerGrowth } = profile();
    expect(Math.abs(outerGrowth.value - 0.08)).toBeLessThan(3 * outerGrowth.u);
  });

  it('says which parameters were not determined, and what to read for them', async () => {
    const some = Object.fromEntries(
      Object.entries(texts).filter(([id]) => /^(bore\.\d|slot|post|rib)/.test(id)),
    );
    const { stdout } = await fettle(['calibrate', printer, file(csv(some))]);
    const foot = features.find(({ measurand }) => measurand.atBed)!;
    expect(stdout).toMatch(new RegExp(`first layer spreads .*not determined: read ${foot.number}\\b`));
    expect(profile().firstLayerSpread).toEqual(defaultPrinter.firstLayerSpread);
  });

  it('takes callipers from the command line', async () => {
    const args = [
      '--callipers',
      'long pair',
      '--zero',
      '-0.02',
      '--resolution',
      '0.02',
      '--land-width',
      '0.5',
    ];
    await fettle(['calibrate', printer, file(csv()), ...args]);
    const shifted = profile();
    expect(shifted.calibration.callipers).toBe('long pair');
    // Every outer size reads 0.02 mm less than it is: half of that a side, but for a little that goes into the scale.
    await fettle(['calibrate', printer, file(csv()), '--resolution', '0.02', '--land-width', '0.5']);
    const shift = shifted.outerGrowth.value - profile().outerGrowth.value;
    expect(shift).toBeGreaterThan(0.007);
    expect(shift).toBeLessThan(0.01);
  });
});

describe('refuses in one line each, and leaves the profile alone', () => {
  const bore = features.find(({ kind }) => kind === 'bore')!;
  it.each<[string, string, readonly string[], readonly string[]]>([
    [
      'an unknown feature',
      'bore.33,4\n',
      [],
      ['line 1: "bore.33" - is no feature of this coupon', 'Did you mean bore.3?'],
    ],
    ['a number that no feature has', '99,4\n', [], ['line 1: "99"', `allowed: 1 to ${features.length}`]],
    ['a text that is no length', `${bore.id},abc\n`, [], [`line 1: ${bore.id}: "abc"`]],
    ['a length the feature cannot have', `${bore.id},44\n`, [], ['is above the plausible range']],
    ['no reading at all', 'feature,reading\n', [], ['no reading at all']],
    ['a title row without readings', 'feature,nominal\nbore.1,3\n', [], ['a column with the title reading']],
    [
      'callipers that cannot be',
      csv(),
      ['--resolution', '7'],
      ['--resolution: "7" - allowed: 0.001 to 1 mm'],
    ],
    [
      'a date that is none',
      csv(),
      ['--date', '2025-02-30'],
      ['--date: "2025-02-30" - allowed: a date, YYYY-MM-DD'],
    ],
    ['a unit that is none', csv(), ['--unit', 'ell'], ['--unit: "ell" - allowed: mm or in']],
    ['two mistakes, both', 'foo,1\nbar,2\n', [], ['"foo"', '"bar"']],
  ])('%s', async (_, text, args, said) => {
    const path = file(text);
    const before = contents(bench.folder);
    const was = readFileSync(printer, 'utf8');
    const { code, stdout, stderr } = await fettle(['calibrate', printer, path, ...args]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    for (const each of said) expect(stderr).toContain(each);
    expect(stderr.trim().split('\n').length).toBe(said.length > 1 && text.startsWith('foo') ? 2 : 1);
    expect(contents(bench.folder)).toEqual(before);
    expect(readFileSync(printer, 'utf8')).toBe(was);
  });

  it('a swap out of range, with the hint', async () => {
    const span = features.find(({ id }) => id === 'span.x')!;
    const [right] = texts[span.id]!;
    const wrong = right![1]! + right![0]! + right!.slice(2);
    const { code, stderr } = await fettle(['calibrate', printer, file(`span.x,${wrong}\n`)]);
    expect(code).toBe(2);
    expect(stderr).toContain(`two digits swapped? ${right} mm would be inside`);
  });

  it('readings that make no printer', async () => {
    // The longest lengths at one end of what is plausible or the other, by turns.
    const rows = Object.fromEntries(
      ['span.x', 'span.y', 'diagonal.long', 'step.x', 'step.y'].map((id, k) => {
        const { from, to } = features.find((feature) => feature.id === id)!.reading;
        return [id, [(k % 2 === 0 ? to - 0.1 : from + 0.1).toFixed(2)]];
      }),
    );
    const was = readFileSync(printer, 'utf8');
    const { code, stderr, stdout } = await fettle(['calibrate', printer, file(csv(rows))]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('is what these readings come to, and no printer');
    expect(readFileSync(printer, 'utf8')).toBe(was);
  });

  it('a profile that is none, and a file that is not there', async () => {
    const { code, stderr } = await fettle(['calibrate', file('{}', 'p.json'), file(csv())]);
    expect(code).toBe(2);
    expect(stderr).toContain('fettlePrinter');
    const gone = await fettle(['calibrate', printer, join(bench.folder, 'gone.csv')]);
    expect(gone.code).toBe(2);
    expect(gone.stderr).toContain('no such file or directory');
  });
});

describe('at the bench', () => {
  const lines = features.flatMap(({ id }) => texts[id]!);
  const kept = () => join(bench.folder, 'my.printer-readings.json');

  it('takes number after number and then calibrates', async () => {
    const { code, stdout, stderr } = await fettle(['calibrate', printer, '--date', '2025-11-20'], {
      input: `${lines.join('\n')}\n`,
    });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain(`1 of ${features.length}  (1) ${features[0]!.reading.name.toUpperCase()}`);
    expect(JSON.parse(readFileSync(kept(), 'utf8')).readings).toEqual(texts);
    const fromBench = profile();
    expect(fromBench.calibrated).toBe('2025-11-20');
    writeFileSync(printer, JSON.stringify(own));
    await fettle(['calibrate', printer, file(csv()), '--date', '2025-11-20']);
    expect(profile()).toEqual(fromBench);
  });

  it('keeps its questions off standard output when JSON is asked for', async () => {
    const { stdout, stderr } = await fettle(['calibrate', printer, '--json'], {
      input: `${lines.join('\n')}\n`,
    });
    expect(JSON.parse(stdout).profile).toEqual(profile());
    expect(stderr).toContain('1 of 2 > ');
  });

  it('stops anywhere, loses nothing, and goes on where it stopped', async () => {
    const first = await fettle(['calibrate', printer, '--callipers', 'long pair'], {
      input: `${lines.slice(0, 7).join('\n')}\n`,
    });
    expect(first.code).toBe(0);
    expect(first.stdout).toContain('still to be read: ');
    expect(first.stdout).toContain(`next: fettle calibrate ${printer}`);
    expect(profile().calibrated).toBeNull();
    expect(Object.values(JSON.parse(readFileSync(kept(), 'utf8')).readings).flat()).toEqual(
      lines.slice(0, 7),
    );
    const second = await fettle(['calibrate', printer], { input: `${lines.slice(7).join('\n')}\n` });
    expect(second.code).toBe(0);
    expect(profile().calibration.readings).toEqual(texts);
    // What was told once about the callipers holds.
    expect(profile().calibration.callipers).toBe('long pair');
  });

  it('has each reading on the disk before it asks for the next', async () => {
    const child = spawn(process.execPath, [command, 'calibrate', printer]);
    let said = '';
    const asked = (prompt: string) =>
      new Promise<void>((resolve) => {
        const look = () => {
          if (said.includes(prompt)) resolve();
        };
        child.stdout.on('data', look);
        look();
      });
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    await asked('1 of 2 > ');
    child.stdin.write(`${lines[0]}\n`);
    await asked('2 of 2 > ');
    child.kill('SIGKILL');
    await new Promise((resolve) => child.on('close', resolve));
    expect(JSON.parse(readFileSync(kept(), 'utf8')).readings).toEqual({ [features[0]!.id]: [lines[0]] });
  });

  it('begins anew for a new coupon, the old readings kept aside', async () => {
    await fettle(['calibrate', printer], { input: '1.91\n1.92\n' });
    const { stdout } = await fettle(['calibrate', printer, '--again'], { input: '1.85\n' });
    expect(stdout).toContain('my.printer-readings.before.json');
    expect(JSON.parse(readFileSync(kept(), 'utf8')).readings[features[0]!.id]).toEqual(['1.85']);
    const aside = join(bench.folder, 'my.printer-readings.before.json');
    expect(JSON.parse(readFileSync(aside, 'utf8')).readings[features[0]!.id]).toEqual(['1.91', '1.92']);
  });

  it('writes nothing where nothing was typed', async () => {
    const { code } = await fettle(['calibrate', printer], { input: '' });
    expect(code).toBe(0);
    expect(existsSync(kept())).toBe(false);
    expect(profile()).toEqual(own);
  });
});
