// What a person may hand over by mistake or mischief: refused with exit code 2, one line a problem, nothing written.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { contents, demoJob, fettle, workshop } from './fettle.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());

const demo = JSON.parse(readFileSync(demoJob, 'utf8'));
const job = (change: object): string => JSON.stringify({ ...demo, ...change });
const read = (change: object): string => job({ readings: { ...demo.readings, ...change } });
const { barDiameter: _, ...withoutBar } = demo.readings;

async function refused(args: readonly string[], input?: string) {
  const before = contents(bench.folder);
  const { code, stdout, stderr } = await fettle(args, { cwd: bench.folder, ...(input ? { input } : {}) });
  expect(code, stderr).toBe(2);
  expect(stdout).toBe('');
  expect(stderr).not.toMatch(/^\s+at |node:|\.js:\d/m);
  expect(contents(bench.folder)).toEqual(before);
  return stderr.trimEnd().split('\n');
}

interface Row {
  readonly what: string;
  readonly text: string | Uint8Array;
  /** One pattern a line that is expected on stderr. */
  readonly said: readonly RegExp[];
}

const rows: readonly Row[] = [
  { what: 'nothing in the file', text: '', said: [/not JSON at line 1, column 1/] },
  { what: 'no JSON', text: '{\n  "fettle": 1,\n  oops\n}', said: [/not JSON at line 3, column 3/] },
  {
    what: 'a name twice',
    text: job({}).replace('{', '{"note": "x", "title": "a", '),
    said: [/a second time at line 1/],
  },
  { what: 'JSON that is no job', text: '[1, 2]', said: [/an object/] },
  { what: 'null', text: 'null', said: [/an object/] },
  { what: 'a depth no job has', text: '['.repeat(100_000), said: [/nested too deep/] },
  { what: 'UTF-16', text: Buffer.from(`\uFEFF${job({})}`, 'utf16le'), said: [/not UTF-8 text/] },
  { what: 'an STL', text: new Uint8Array(684).fill(0xff), said: [/not UTF-8 text/] },
  { what: 'no version', text: job({ fettle: undefined }), said: [/fettle: .*missing.*allowed: 1/] },
  { what: 'a later version', text: job({ fettle: 2 }), said: [/fettle: 2 .*newer.*allowed: 1/] },
  {
    what: 'no such family',
    text: job({ family: 'stabilizer-clip' }),
    said: [/Did you mean stabiliser-clip\?/],
  },
  { what: 'a misspelt field', text: job({ materiel: 'PLA' }), said: [/materiel: .*Did you mean material\?/] },
  { what: 'a misspelt reading', text: read({ barDiametre: ['1.6'] }), said: [/Did you mean barDiameter\?/] },
  {
    what: 'a missing reading',
    text: job({ readings: withoutBar }),
    said: [/readings\.barDiameter: .*not been read/],
  },
  {
    what: 'a reading without values',
    text: read({ barDiameter: [] }),
    said: [/readings\.barDiameter: .*not been read/],
  },
  {
    what: 'a blank reading',
    text: read({ barDiameter: ['  '] }),
    said: [/readings\.barDiameter\[0\]: .*blank/],
  },
  { what: 'zero', text: read({ barDiameter: [0] }), said: [/barDiameter\[0\]: 0 .*not above 0/] },
  {
    what: 'a negative reading',
    text: read({ barDiameter: ['1.6', '-1.6'] }),
    said: [/barDiameter\[1\]: "-1\.6" .*below 0/],
  },
  { what: 'NaN', text: read({ barDiameter: ['NaN'] }), said: [/barDiameter\[0\]: "NaN" .*no finite number/] },
  { what: '1e9', text: read({ barDiameter: [1e9] }), said: [/barDiameter\[0\]: 1000000000 .*allowed/] },
  { what: 'a thousands separator', text: read({ barDiameter: ['1,234.5'] }), said: [/comma and a point/] },
  {
    what: 'an unknown material',
    text: job({ material: 'PTEG' }),
    said: [/material: "PTEG" .*Did you mean PETG\?/],
  },
  {
    what: 'an unknown choice',
    text: job({ choices: { ...demo.choices, mouth: 'opn' } }),
    said: [/Did you mean open\?/],
  },
  {
    what: 'three things at once',
    text: job({ material: 'PTEG', readings: { ...demo.readings, barDiameter: ['x', '1.6', '99'] } }),
    said: [/barDiameter\[0\]/, /material/],
  },
  { what: 'a line break in a name', text: job({ 'a\nb': 1 }), said: [/a\\u000ab/] },
  {
    what: 'a printer that is not there',
    text: job({ printer: 'gone.json' }),
    said: [/printer: no such file/],
  },
  {
    what: 'a printer above the job',
    text: job({ printer: '../p.json' }),
    said: [/printer: "\.\.\/p\.json" .*beside/],
  },
  {
    what: 'a printer anywhere',
    text: job({ printer: '/etc/passwd' }),
    said: [/printer: "\/etc\/passwd" .*beside/],
  },
  {
    what: 'a printer above, another way',
    text: job({ printer: 'a\\..\\..\\p' }),
    said: [/printer: .*beside/],
  },
  {
    what: 'a printer with a zero in its name',
    text: job({ printer: 'a\0b' }),
    said: [/printer: .*control characters/],
  },
  { what: 'a folder for a printer', text: job({ printer: '.' }), said: [/printer: a folder/] },
  { what: 'itself for a printer', text: job({ printer: 'bad.job.json' }), said: [/printer/] },
];

describe.each(['make', 'check'])('fettle %s', (command) => {
  it.each(rows)('refuses $what', async ({ text, said }) => {
    writeFileSync(join(bench.folder, 'bad.job.json'), text);
    const lines = await refused([command, 'bad.job.json']);
    for (const pattern of said) expect(lines.join('\n')).toMatch(pattern);
    for (const line of lines) expect(line).toMatch(/^bad\.job\.json: ?.*allowed: /);
    expect(lines.length).toBeGreaterThanOrEqual(said.length);
  });

  it.each([
    ['a folder', '.', /a folder - allowed: a job file/],
    ['a file that is not there', 'gone.json', /gone\.json: no such file or directory/],
    ['a path through a file', 'file/x.json', /not a directory/],
    ['a device', '/dev/zero', /not a plain file/],
    ['a name of 300 letters', 'x'.repeat(300), /name too long/],
  ])('refuses %s', async (_, path, said) => {
    writeFileSync(join(bench.folder, 'file'), 'x');
    expect((await refused([command, path]))[0]).toMatch(said);
  });

  it('refuses a job of 50 MiB by its size', async () => {
    writeFileSync(join(bench.folder, 'big.json'), Buffer.alloc(50 * 1024 * 1024, ' '));
    expect(await refused([command, 'big.json'])).toEqual([
      expect.stringMatching(/^big\.json: 50\.0 MiB - allowed: .* at most 5 MiB/),
    ]);
  });
});

it('takes a job with a byte order mark', async () => {
  writeFileSync(join(bench.folder, 'bom.job.json'), `\uFEFF${job({})}`);
  expect([0, 3]).toContain((await fettle(['check', 'bom.job.json'], { cwd: bench.folder })).code);
});

// The administrator, whom permissions do not stop, is stopped by these.
describe.each([
  ['a file', 'file', /file already exists/],
  ['a folder below a file', 'file/out', /not a directory/],
  ['a folder that nobody can make', '/proc/fettle', /\/proc\/fettle: --out: /],
  ['a folder where a folder has the name of the STL', 'taken', /demo\.stl: a folder of that name/],
])('--out at %s', (_, out, said) => {
  it('refuses, and leaves nothing behind', async () => {
    writeFileSync(join(bench.folder, 'file'), 'x');
    mkdirSync(join(bench.folder, 'taken', 'demo.stl'), { recursive: true });
    writeFileSync(join(bench.folder, 'taken', 'demo.json'), 'old');
    expect((await refused(['make', demoJob, '--out', out])).join()).toMatch(said);
    expect(readFileSync(join(bench.folder, 'taken', 'demo.json'), 'utf8')).toBe('old');
  });
});
