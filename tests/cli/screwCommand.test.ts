import { describe, expect, it } from 'vitest';
import { screwLines } from '../../src/cli/screw/screwLines.ts';
import { looksOf } from '../../src/cli/terminal.ts';
import { Refused, sentence } from '../../src/job/problem.ts';
import { readScrew, type ScrewOptions } from '../../src/job/screw/readScrew.ts';
import { identifyScrew } from '../../src/standards/threads/identifyScrew.ts';
import { threads } from '../../src/standards/threads/threads.ts';
import { fettle } from './fettle.ts';
import { expectFormat } from './validator.ts';

/** What is printed, on a terminal so many characters wide. */
const printed = (options: ScrewOptions, width = Number.POSITIVE_INFINITY): readonly string[] => {
  const read = readScrew(options);
  return screwLines(read, identifyScrew(read), { ...looksOf(process.stdout, { NO_COLOR: '1' }), width });
};
/** The lines about refused options, without the name of the command. */
const refused = (options: ScrewOptions): readonly string[] => {
  try {
    readScrew(options);
  } catch (error) {
    if (error instanceof Refused) return error.problems.map((problem) => sentence('screw', problem));
    throw error;
  }
  throw new RangeError('these options are taken');
};

describe('fettle screw', () => {
  it('names the likeliest, what else it may be and how to tell, and the holes of ISO 273', async () => {
    const args = ['screw', '--diameter', '4.92', '--threads', '10', '--over', '8'];
    const { code, stdout, stderr } = await fettle(args);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(/^Screw - 4\.920 mm across, pitch 0\.800 mm, over 10 threads$/m);
    expect(stdout).toMatch(/^ {2}most likely {2}M5 {2}(> )?\d\d %$/m);
    expect(stdout).toContain('hole that M5 passes, mm: 5.30 fine, 5.50 medium, 5.80 coarse (ISO 273)');
  });

  it('prints one JSON object', async () => {
    const { code, stdout } = await fettle([
      'screw',
      '--diameter',
      '4,79',
      '--threads',
      '10',
      '--over',
      '7.95',
      '--json',
    ]);
    expect(code).toBe(0);
    expectFormat('screw', stdout);
    const object = JSON.parse(stdout);
    expect(object).toMatchObject({
      unit: 'mm',
      diameter: { value: 4.79 },
      pitch: { value: 0.795, threads: 10 },
      clearanceHoles: { designation: '#10-32 UNF', fine: 5.126, medium: 5.326, coarse: 5.626 },
    });
    expect(object.candidates.map((each: { designation: string }) => each.designation)).toEqual([
      '#10-32 UNF',
      'M5',
    ]);
    expect(object.candidates.length + object.ruledOut.length).toBe(threads.length);
    expect(object.tests).toContainEqual({
      between: ['#10-32 UNF', 'M5'],
      by: 'diameter',
      expected: [
        { lo: 4.6507, hi: 4.8031 },
        { lo: 4.826, hi: 4.976 },
      ],
    });
    const sum = [...object.candidates, ...object.ruledOut].reduce(
      (all, { likely }) => all + likely,
      object.none,
    );
    expect(sum).toBeCloseTo(1, 4);
  });

  it('says one line a problem, and no more', async () => {
    const { code, stdout, stderr } = await fettle([
      'screw',
      '--diameter',
      '30',
      '--pitch',
      'fine',
      '--threads',
      '2.5',
    ]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr.trimEnd().split('\n')).toEqual([
      'screw: --diameter: "30" - is out of range; allowed: 1 to 12 mm, such as 2.84 or 0.112in',
      expect.stringMatching(/^screw: --pitch: "fine" - .*; allowed: 0\.15 to 3 mm, such as/),
      'screw: --threads: "2.5" - is no whole number; allowed: a whole number from 1 to 100',
    ]);
  });

  it('asks for a diameter', async () => {
    const { code, stdout, stderr } = await fettle(['screw', '--pitch', '0.8']);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/^error: .*--diameter <length>.*\n$/);
  });
});

describe('options', () => {
  it('are lengths in any unit, with the doubt of callipers', () => {
    const metric = readScrew({ diameter: '2.8448', threads: '10', over: '6,35' });
    const inches = readScrew({ diameter: '0.112 in', threads: '10', over: '1/4in' });
    expect(inches.diameter.value).toBeCloseTo(metric.diameter.value, 9);
    expect(inches.pitch!.value).toBeCloseTo(0.635, 9);
    // DIN 862, digital, 0.02 mm as a rectangle, with a step of 0.01 and a repeatability of 0.02: JCGM 100, 4.3.
    expect(metric.diameter.u).toBeCloseTo(Math.hypot(0.02, 0.01 / Math.sqrt(12), 0.02 / Math.sqrt(3)), 4);
  });

  it('take a pitch over one thread, or as many as it was taken over', () => {
    const [one, ten] = [
      readScrew({ diameter: '3', pitch: '0.5' }),
      readScrew({ diameter: '3', pitch: '0.5', threads: '10' }),
    ];
    expect(one.threads).toBe(1);
    expect(ten.pitch!.value).toBeCloseTo(one.pitch!.value, 12);
    expect(ten.pitch!.u).toBeCloseTo(one.pitch!.u / 10, 9);
    expect(readScrew({ diameter: '3' })).toMatchObject({ threads: 0 });
  });

  it.each<readonly [string, ScrewOptions, RegExp]>([
    [
      'no number',
      { diameter: 'M5' },
      /^screw: --diameter: "M5" - does not begin with a number; allowed: 1 to 12 mm/,
    ],
    ['inches without their name', { diameter: '0.112' }, /is out of range; allowed: .* or 0\.112in$/],
    [
      'pitch per inch',
      { diameter: '3', pitch: '40' },
      /^screw: --pitch: "40" - is out of range; allowed: 0\.15 to 3 mm/,
    ],
    [
      'pitch twice',
      { diameter: '3', pitch: '0.5', threads: '10', over: '5' },
      /^screw: --over: "5" - says the pitch a second/,
    ],
    ['length alone', { diameter: '3', over: '5' }, /^screw: --over: "5" - is a length over unknown threads/],
    ['threads alone', { diameter: '3', threads: '10' }, /^screw: --threads: "10" - comes without the length/],
    ['no thread', { diameter: '3', threads: '0', over: '5' }, /^screw: --threads: "0" - is out of range/],
    [
      'too long',
      { diameter: '3', threads: '2', over: '50' },
      /^screw: --over: "50" - is 25\.000 mm a thread; allowed: 0\.15/,
    ],
    ['below 0', { diameter: '-3' }, /^screw: --diameter: "-3" - is below 0/],
    ['blank', { diameter: '' }, /^screw: --diameter: - is blank; allowed: 1 to 12/],
  ])('refuse: %s', (_, options, line) => {
    const lines = refused(options);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(line);
  });
});

describe('what is printed', () => {
  it('calls a thread that agrees badly so, and says what to measure', () => {
    const text = printed({ diameter: '2.84', pitch: '0.79' }).join('\n');
    expect(text).toContain('most likely  #4-40 UNC');
    expect(text).toContain('/!\\ agrees badly: pitch 0.155 mm too long');
    expect(text).toContain('next: measure over ten threads');
    expect(text).toMatch(/ruled out .*M3 \(pitch 0\.290 mm too long\)/);
  });

  it('names the suspects where nothing agrees, and no hole', () => {
    const text = printed({ diameter: '2.84', threads: '10', over: '7.9' }).join('\n');
    expect(text).toContain('X no thread here agrees');
    expect(text).toContain('by its diameter alone #4-40 UNC, #4-48 UNF, M3; by its pitch alone #6-32 UNC');
    expect(text).not.toContain('hole that');
  });

  it('asks for the pitch where only the diameter is known', () => {
    const lines = printed({ diameter: '2.84' });
    expect(lines).toContain('  next: measure over ten threads and say --threads 10 --over LENGTH');
    expect(
      lines.some((line) => /^ {2}if ST2\.9, not M3: 5 threads are 5\.50 mm long, not 2\.50;/.test(line)),
    ).toBe(true);
    expect(lines.at(-1)).toContain('not in ISO 273: with the gap of M3, common practice, no source');
  });

  it('keeps to the width of a terminal', () => {
    for (const options of [
      { diameter: '2.84' },
      { diameter: '2.84', pitch: '0.79' },
      { diameter: '2.84', threads: '10', over: '7.9' },
      { diameter: '4.79', threads: '10', over: '7.95' },
    ])
      for (const line of printed(options, 80)) expect(line.length, line).toBeLessThanOrEqual(80);
  });
});
