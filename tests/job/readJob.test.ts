import { describe, expect, it } from 'vitest';
import { sentence } from '../../src/job/problem.ts';
import { demo, type PlainJob, problemsIn, read, roundPost } from './demo.ts';

/** A damaged job: what it is, the damage, and field, value, allowed and reason of the one problem it must give. */
type Row = readonly [
  what: string,
  damage: (job: PlainJob) => void,
  field: string,
  value: unknown,
  allowed: RegExp,
  reason?: RegExp,
];

// Types say what a job is; a damaged one is anything.
const set = (at: string, value: unknown) => (job: PlainJob) => {
  const keys = at.split('.');
  const last = keys.pop()!;
  const owner = keys.reduce<object>((inner, key) => Reflect.get(inner, key) as object, job);
  if (value === undefined) Reflect.deleteProperty(owner, last);
  else Reflect.set(owner, last, value);
};
const bar = (value: unknown) => (job: PlainJob) => {
  Reflect.set(job.readings.barDiameter!, '1', value);
};

const profileFields = /^one of fettlePrinter, name, material, calibrated, bed, .*bridge/;
const rangeOfBar = /^0\.8 to 4 mm$/;
const aLength = /^a length such as 12,34 or 12\.34 mm, 0\.125 in/;

const rows: Row[] = [
  ['no version', set('fettle', undefined), 'fettle', '', /^1$/, /is missing/],
  ['newer version', set('fettle', 2), 'fettle', '2', /^1$/, /newer Fettle/],
  ['older version', set('fettle', 0), 'fettle', '0', /^1$/, /no version/],
  ['version as text', set('fettle', '1'), 'fettle', '"1"', /^1$/, /no version/],
  [
    'near family',
    set('family', 'stabilizer-clip'),
    'family',
    '"stabilizer-clip"',
    /Did you mean stabiliser-clip\?$/,
  ],
  ['far family', set('family', 'gearbox'), 'family', '"gearbox"', /^one of .*stabiliser-clip/],
  ['no family', set('family', undefined), 'family', '', /^a text$/, /is missing/],
  ['family a number', set('family', 3), 'family', '3', /^a text$/],
  [
    'extra field',
    set('redings', {}),
    'redings',
    '',
    /^one of fettle, family, .*Did you mean readings\?$/,
    /no field/,
  ],
  [
    'extra in callipers',
    set('callipers.zeroo', '0'),
    'callipers.zeroo',
    '',
    /Did you mean zero\?$/,
    /no field/,
  ],
  ['extra in printer', set('printer.layers', 3), 'printer.layers', '', profileFields, /no field/],
  ['extra in bed', set('printer.bed.w', 3), 'printer.bed.w', '', /^one of x, y, z/, /no field/],
  [
    'extra deep in printer',
    set('printer.scale.x.uu', 3),
    'printer.scale.x.uu',
    '',
    /^one of value, u\. Did you mean u\?$/,
  ],
  ['extra in surroundings', set('surroundings.temp', 3), 'surroundings.temp', '', /^one of temperature/],
  [
    'extra reading',
    set('readings.barDiametre', ['1']),
    'readings.barDiametre',
    '',
    /Did you mean barDiameter\?$/,
    /no reading/,
  ],
  [
    'reading left out',
    set('readings.barDiameter', undefined),
    'readings.barDiameter',
    '',
    /^5 readings from 0\.8 to 4 mm$/,
    /not been read/,
  ],
  [
    'no readings of one',
    set('readings.roomAlong', []),
    'readings.roomAlong',
    '',
    /^a reading from 2 to 60 mm$/,
    /not been read/,
  ],
  ['readings a list', set('readings', []), 'readings', '[]', /^an object$/],
  ['readings null', set('readings', null), 'readings', 'null', /^an object$/],
  [
    'a reading without its list',
    set('readings.barDiameter', '1.6'),
    'readings.barDiameter',
    '"1.6"',
    /^a list$/,
  ],
  [
    '101 readings',
    set('readings.barDiameter', Array(101).fill('1.6')),
    'readings.barDiameter',
    expect.any(String),
    /^at most 100 entries$/,
  ],
  ['blank', bar(''), 'readings.barDiameter[1]', '""', aLength, /\(bar diameter\) is blank/],
  ['spaces', bar('   '), 'readings.barDiameter[1]', '"   "', aLength, /is blank/],
  ['zero', bar(0), 'readings.barDiameter[1]', '0', rangeOfBar, /not above 0/],
  ['zero as text', bar('0'), 'readings.barDiameter[1]', '"0"', rangeOfBar, /not above 0/],
  ['negative', bar(-1), 'readings.barDiameter[1]', '-1', /0 or above$/, /below 0/],
  ['NaN as text', bar('NaN'), 'readings.barDiameter[1]', '"NaN"', aLength, /no finite number/],
  ['NaN, which JSON makes null', bar(Number.NaN), 'readings.barDiameter[1]', 'null', /^a text or a number$/],
  ['infinity', bar('∞'), 'readings.barDiameter[1]', '"∞"', aLength, /no finite number/],
  ['exponent', bar('1e9'), 'readings.barDiameter[1]', '"1e9"', aLength, /exponent/],
  ['huge', bar(1e9), 'readings.barDiameter[1]', '1000000000', rangeOfBar, /longer than 1000 mm/],
  [
    'too many digits',
    bar('9'.repeat(30)),
    'readings.barDiameter[1]',
    `"${'9'.repeat(30)}"`,
    aLength,
    /11 digits/,
  ],
  [
    'comma and point',
    bar('1,234.5'),
    'readings.barDiameter[1]',
    '"1,234.5"',
    /^one decimal comma or point/,
    /both a comma and a point/,
  ],
  [
    'mm typed under inches',
    bar('40.64'),
    'readings.barDiameter[1]',
    '"40.64"',
    rangeOfBar,
    /divided by 25\.4 .*millimetres were likely taken for inches/,
  ],
  [
    'inches typed under mm',
    bar('0.063'),
    'readings.barDiameter[1]',
    '"0.063"',
    rangeOfBar,
    /times 25\.4 .*inches were likely taken for millimetres/,
  ],
  ['a word', bar('abc'), 'readings.barDiameter[1]', '"abc"', aLength, /does not begin with a number/],
  [
    'unknown unit',
    bar('1.6 furlongs'),
    'readings.barDiameter[1]',
    '"1.6 furlongs"',
    aLength,
    /unit that is not one of mm, in/,
  ],
  [
    'two numbers',
    bar('1.6 mm 1.7 mm'),
    'readings.barDiameter[1]',
    '"1.6 mm 1.7 mm"',
    aLength,
    /more than one number/,
  ],
  [
    'fraction without unit',
    bar('1/16'),
    'readings.barDiameter[1]',
    '"1/16"',
    /fractions of an inch/,
    /without a unit/,
  ],
  ['an object', bar({}), 'readings.barDiameter[1]', '{}', /^a text or a number$/],
  ['a list in the list', bar(['1.6']), 'readings.barDiameter[1]', '["1.6"]', /^a text or a number$/],
  [
    'a page of text',
    bar('x'.repeat(201)),
    'readings.barDiameter[1]',
    expect.stringMatching(/^"x{50,57}\.\.\.$/),
    /^at most 200 characters$/,
  ],
  [
    'unknown option',
    set('choices.post', 'rectangle'),
    'choices.post',
    '"rectangle"',
    /^one of rectangular, round\. Did you mean rectangular\?$/,
  ],
  ['unknown choice', set('choices.pots', 'round'), 'choices.pots', '', /Did you mean post\?$/, /no choice/],
  ['choice a number', set('choices.post', 4), 'choices.post', '4', /^a text$/],
  ['unknown size', set('sizes.amr', '1.2'), 'sizes.amr', '', /Did you mean arm\?$/, /no size/],
  ['size out of range', set('sizes.arm', '0.1'), 'sizes.arm', '"0.1"', /^0\.6 to 3 mm$/, /out of range/],
  ['size a word', set('sizes.arm', 'thick'), 'sizes.arm', '"thick"', /^0\.6 to 3 mm$/, /does not begin/],
  [
    'ratio with a unit',
    set('sizes.mouthShare', '0.88 mm'),
    'sizes.mouthShare',
    '"0.88 mm"',
    /^0\.6 to 0\.98$/,
    /no plain number/,
  ],
  [
    'ratio as per cent',
    set('sizes.mouthShare', '88 %'),
    'sizes.mouthShare',
    '"88 %"',
    /^0\.6 to 0\.98$/,
    /no plain number/,
  ],
  [
    'ratio out of range',
    set('sizes.mouthShare', 88),
    'sizes.mouthShare',
    '88',
    /^0\.6 to 0\.98$/,
    /out of range/,
  ],
  [
    'unknown interface',
    set('fits.baar', 'snug'),
    'fits.baar',
    '',
    /Did you mean bar\?$/,
    /no meeting surface/,
  ],
  [
    'unknown fit',
    set('fits.bar', 'tight'),
    'fits.bar',
    '"tight"',
    /^press, snug, sliding, free or an ISO 286 code such as H8\/f7 or a list of two numbers$/,
  ],
  ['ISO fit with the shaft first', set('fits.bar', 'f7/H8'), 'fits.bar', '"f7/H8"', /such as H8\/f7/],
  [
    'ISO fit of an unknown letter',
    set('fits.bar', 'H8/w7'),
    'fits.bar',
    '"H8/w7"',
    /shafts c d e f g h js k/,
  ],
  ['ISO fit of an unknown grade', set('fits.bar', 'H19/f7'), 'fits.bar', '"H19/f7"', /a grade from 1 to 18/],
  ['window the wrong way round', set('fits.bar', [0.3, 0.1]), 'fits.bar', '[0.3,0.1]', /the smaller first/],
  ['window without width', set('fits.bar', [0.1, 0.1]), 'fits.bar', '[0.1,0.1]', /the smaller first/],
  ['window too wide', set('fits.bar', [-3, 9]), 'fits.bar', '[-3,9]', /from -2 to 5$/],
  ['window of three', set('fits.bar', [0, 0.1, 0.2]), 'fits.bar', '[0,0.1,0.2]', /a list of two numbers/],
  ['window of one end', set('fits.bar', [0, null]), 'fits.bar[1]', 'null', /^a number$/],
  ['misspelt material', set('material', 'PEGT'), 'material', '"PEGT"', /Did you mean PETG\?$/],
  [
    'no such material',
    set('material', 'oak'),
    'material',
    '"oak"',
    /^one of PLA, PETG, ABS, ASA, PA12, TPU$/,
  ],
  ['a printer by name, unread', set('printer', 'mine.json'), 'printer', '"mine.json"', /^a printer profile/],
  ['printer null', set('printer', null), 'printer', 'null', /^a text or an object$/],
  [
    'scale in per cent',
    set('printer.scale.x.value', 99.8),
    'printer.scale.x.value',
    '99.8',
    /^at most 1\.1$/,
  ],
  ['layer as text', set('printer.layer', '0.2'), 'printer.layer', '"0.2"', /^a number$/],
  ['no line width', set('printer.lineWidth', undefined), 'printer.lineWidth', '', /^a number$/, /is missing/],
  ['no date', set('printer.calibrated', 'May'), 'printer.calibrated', '"May"', /^a date, YYYY-MM-DD$/],
  [
    'temperature a word',
    set('surroundings.temperature', 'warm'),
    'surroundings.temperature',
    '"warm"',
    /^a temperature such as 45/,
    /does not begin/,
  ],
  [
    'Fahrenheit',
    set('surroundings.temperature', '100 F'),
    'surroundings.temperature',
    '"100 F"',
    /such as 45/,
    /Fahrenheit/,
  ],
  [
    'temperature out of range',
    set('surroundings.temperature', 900),
    'surroundings.temperature',
    '900',
    /^-40 to 300 degC$/,
  ],
  [
    'no temperature',
    set('surroundings.temperature', undefined),
    'surroundings.temperature',
    '',
    /^a text or a number$/,
    /is missing/,
  ],
  ['resolution zero', set('callipers.resolution', '0'), 'callipers.resolution', '"0"', /^0\.001 to 1 mm$/],
  ['zero offset a word', set('callipers.zero', 'x'), 'callipers.zero', '"x"', aLength],
  [
    'scale of light',
    set('callipers.scale', 'laser'),
    'callipers.scale',
    '"laser"',
    /^digital, dial, vernier$/,
  ],
  ['negative land', set('callipers.landWidth', '-1'), 'callipers.landWidth', '"-1"', /^0 to 3 mm$/],
  ['none to make', set('quantity', 0), 'quantity', '0', /^at least 1$/],
  ['more than can be counted', set('quantity', 1e308), 'quantity', '1e+308', /^at most 1000$/],
  ['half a part', set('quantity', 1.5), 'quantity', '1.5', /^a whole number$/],
  ['quantity as text', set('quantity', '2'), 'quantity', '"2"', /^a number$/],
  ['unit', set('unit', 'cm'), 'unit', '"cm"', /^mm, in$/],
  ['title a number', set('title', 5), 'title', '5', /^a text$/],
  // Contradictions: every reading plausible alone.
  [
    'bore larger than its body',
    (j) => {
      j.readings.barDiameter = ['4.00'];
      j.readings.roomAcross = ['4.6'];
    },
    'readings.roomAcross',
    '["4.6"]',
    /^4 to 60 mm, in keeping/,
    /room 4\.59 mm, clip 7\.\d\d mm/,
  ],
  [
    'reach shorter than its height',
    (j) => {
      j.readings.reach = ['4.2'];
      j.readings.hingeHeight = ['0.5'];
    },
    'readings.reach',
    '["4.2"]',
    /in keeping with the others$/,
    /longer than the bar's end ever stands above or below its hinge/,
  ],
  [
    'bar in the keycap',
    set('readings.farSide', ['2.4']),
    'readings.farSide',
    '["2.4"]',
    /^2 to 30 mm/,
    /no plastic between bar and keycap/,
  ],
  [
    'clip through the plate',
    set('readings.restHeight', ['9.5']),
    'readings.restHeight',
    '["9.5"]',
    /^4 to 40 mm/,
    /room 5\.70 mm/,
  ],
  [
    'clip wider than its room',
    set('readings.roomAcross', ['5']),
    'readings.roomAcross',
    '["5"]',
    /^4 to 60 mm/,
    /too narrow for the clip/,
  ],
  [
    'clip longer than its room',
    set('readings.roomAlong', ['3']),
    'readings.roomAlong',
    '["3"]',
    /^2 to 60 mm/,
    /too short for the clip/,
  ],
  [
    'post on the floor',
    set('sizes.postLength', '5'),
    'sizes.postLength',
    '"5"',
    /^1 to 14 mm/,
    /short of the socket's floor/,
  ],
  ['all lead-in', set('sizes.leadIn', '2'), 'sizes.leadIn', '"2"', /^0\.2 to 2 mm/, /leave a straight post/],
  // Left to itself the chamfer was wider than the post is long, and the shape threw.
  [
    'lead-in past a narrow length',
    (j) => {
      j.readings.socketLength = ['1.7'];
      j.sizes.leadIn = '0.9';
    },
    'sizes.leadIn',
    '"0.9"',
    /^0\.2 to 2 mm/,
    /1\.69 mm across/,
  ],
  [
    'ribs in a narrow socket',
    (j) => {
      j.readings.socketWidth = ['1.8'];
      j.choices.ribs = 'crush';
    },
    'readings.socketWidth',
    '["1.8"]',
    /^1\.5 to 12 mm/,
    /too narrow for crush ribs/,
  ],
  [
    'round socket not read',
    set('choices.post', 'round'),
    'readings.socketDiameter',
    '',
    /^5 readings from 2 to 12 mm$/,
    /not been read/,
  ],
];

describe('a damaged job is refused, with field, value and what is allowed', () => {
  for (const [what, damage, field, value, allowed, reason] of rows) {
    it(what, () => {
      const problems = problemsIn(JSON.stringify(demo(damage)));
      expect(problems.map((problem) => problem.field)).toEqual([field]);
      const [problem] = problems;
      expect(problem!.value).toEqual(value);
      expect(problem!.allowed).toMatch(allowed);
      if (reason) expect(problem!.reason).toMatch(reason);
      // FILE: FIELD: VALUE - REASON; allowed: ALLOWED, on one line, no full stop.
      const line = sentence('my.job.json', problem!);
      expect(line).toMatch(/^my\.job\.json: [^\n]+ - ([^\n]+; )?allowed: [^\n]*[^.\n]$/);
      expect(line).not.toMatch(/undefined|NaN mm|null - null|\[object|\ba [aeio]/);
      expect(problem!.code).toMatch(/^[a-z]+(_[a-z]+)*$/);
    });
  }

  it('has every row', () => expect(rows.length).toBeGreaterThan(80));
});

describe('several problems', () => {
  it('are all told at once, those of form', () => {
    const problems = problemsIn(
      JSON.stringify(
        demo((job) => {
          set('callipers.zeroo', 1)(job);
          set('quantity', 0)(job);
          set('printer.layer', 'x')(job);
        }),
      ),
    );
    expect(problems.map(({ field }) => field).sort()).toEqual([
      'callipers.zeroo',
      'printer.layer',
      'quantity',
    ]);
  });

  it('are all told at once, those of content', () => {
    const problems = problemsIn(
      JSON.stringify(
        demo((job) => {
          job.readings.barDiameter = ['x', '1.6', '-2'];
          job.readings.travel = [];
          job.material = 'P';
          job.choices.lay = 'q';
          job.sizes.arm = '9';
          set('surroundings.temperature', 'w')(job);
        }),
      ),
    );
    expect(problems.map(({ field }) => field).sort()).toEqual([
      'choices.lay',
      'material',
      'readings.barDiameter[0]',
      'readings.barDiameter[2]',
      'readings.travel',
      'sizes.arm',
      'surroundings.temperature',
    ]);
  });

  it('are all told at once, contradictions', () => {
    const problems = problemsIn(
      JSON.stringify(
        demo((job) => {
          job.readings.travel = ['7.9'];
          job.readings.restHeight = ['7.5'];
          job.readings.roomAlong = ['3'];
        }),
      ),
    );
    const fields = problems.map(({ field }) => field);
    for (const field of ['readings.travel', 'readings.restHeight', 'readings.roomAlong'])
      expect(fields).toContain(field);
    for (const { code } of problems) expect(code).toBe('contradiction');
  });

  it('name every field of an empty printer', () => {
    const problems = problemsIn(JSON.stringify(demo(set('printer', {}))));
    expect(problems).toHaveLength(19);
    for (const { reason } of problems) expect(reason).toBe('is missing');
  });
});

describe('what is no job at all', () => {
  const demoText = JSON.stringify(demo());
  it.each([
    ['a list', '[]', '', /an object with fettle, family and readings/],
    ['null', 'null', '', /an object with/],
    ['a number', '3', '', /an object with/],
    ['a text', '"job"', '', /an object with/],
    ['an empty file', '', '', /^JSON/],
    ['blanks', ' \n ', '', /^JSON/],
    ['half a file', demoText.slice(0, 300), '', /^JSON/],
    ['not JSON', 'fettle = 1', '', /^JSON/],
    ['6 MiB of nothing', 'x'.repeat(6 * 1024 * 1024), '', /^JSON/],
    [
      '6 MiB of note',
      demoText.replace('Two clips', 'x'.repeat(6 * 1024 * 1024)),
      'note',
      /at most 5000 characters/,
    ],
    ['100,000 brackets', '['.repeat(100_000), '', /^JSON/],
    ['a name twice', demoText.replace('"fettle":1', '"fettle":1,"fettle":2'), '', /each name once/],
    [
      '__proto__',
      demoText.replace('"fettle":1', '"fettle":1,"__proto__":{"unit":"in"}'),
      '__proto__',
      /^one of fettle/,
    ],
    [
      '__proto__ in callipers',
      demoText.replace('"callipers":{', '"callipers":{"__proto__":{},'),
      'callipers.__proto__',
      /^one of name, scale/,
    ],
    [
      '__proto__ in printer',
      demoText.replace('"printer":{', '"printer":{"__proto__":{},'),
      'printer.__proto__',
      /^one of fettlePrinter/,
    ],
    // A map of the schema dropped it without a word.
    [
      '__proto__ among readings',
      demoText.replace('"readings":{', '"readings":{"__proto__":["1"],'),
      'readings.__proto__',
      /readings/,
    ],
    [
      '__proto__ among choices',
      demoText.replace('"choices":{', '"choices":{"__proto__":"x",'),
      'choices.__proto__',
      /choices/,
    ],
    [
      '__proto__ among sizes',
      demoText.replace('"sizes":{', '"sizes":{"__proto__":"1"'),
      'sizes.__proto__',
      /sizes/,
    ],
    [
      '__proto__ among fits',
      demoText.replace('"fits":{', '"fits":{"__proto__":"snug"'),
      'fits.__proto__',
      /fits/,
    ],
    [
      'constructor among readings',
      demoText.replace('"readings":{', '"readings":{"constructor":["1"],'),
      'readings.constructor',
      /^one of barDiameter/,
    ],
    [
      'toString among choices',
      demoText.replace('"choices":{', '"choices":{"toString":"x",'),
      'choices.toString',
      /^one of post/,
    ],
    [
      'hasOwnProperty among fits',
      demoText.replace('"fits":{', '"fits":{"hasOwnProperty":"snug"'),
      'fits.hasOwnProperty',
      /^one of socket/,
    ],
  ])('%s', (_, text, field, allowed) => {
    const [problem, ...others] = problemsIn(text);
    expect(others).toEqual([]);
    expect(problem!.field).toBe(field);
    expect(problem!.allowed).toMatch(allowed);
    expect(sentence('my.job.json', problem!).length).toBeLessThan(600);
  });

  it('takes a byte-order mark', () => {
    expect(problemsIn('\uFEFF{"fettle":1}')[0]!.field).toBe('family');
  });
});

describe('what a job need not say', () => {
  it('has normal values', () => {
    const { job, printer, temperature, values } = read(
      demo((j) => {
        for (const key of [
          'title',
          'quantity',
          'unit',
          'choices',
          'material',
          'printer',
          'surroundings',
          'note',
        ])
          Reflect.deleteProperty(j, key);
      }),
    );
    expect(job).toMatchObject({ quantity: 1, unit: 'mm', material: 'PLA' });
    expect(printer.calibrated).toBeNull();
    expect(temperature).toBe(45);
    expect(values.choices).toEqual({
      ...{ post: 'rectangular', ribs: 'none', guide: 'slot', mouth: 'open', lay: 'side' },
    });
  });

  it('goes by the name of its part where its title is blank', () => {
    for (const title of ['', '  ']) expect(read(demo(set('title', title))).job).not.toHaveProperty('title');
  });

  it('keeps readings as typed', () => {
    expect(read(demo()).job.readings.barDiameter).toEqual(['1.60', '1.61', '1,60', '1.61', '0.063in']);
  });

  it('does not read what the choices do not ask for', () => {
    const { dimensions, values } = read(demo(roundPost));
    expect(dimensions.socketWidth).toBeUndefined();
    expect(values.socketWidth).toBeNaN();
    expect(values.socketDiameter).toBeGreaterThan(3.9);
  });
});
