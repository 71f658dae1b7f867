import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openPrinter } from '../../src/cli/openPrinter.ts';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
import { sentence } from '../../src/job/problem.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { workshop } from './fettle.ts';

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());

const written = (text: string): string => {
  const path = join(bench.folder, 'mine.printer.json');
  writeFileSync(path, text);
  return path;
};

async function refusal(path: string): Promise<string[]> {
  const error = await openPrinter(path).catch((problem: unknown) => problem);
  expect(error).toBeInstanceOf(RefusedFile);
  return (error as RefusedFile).problems.map((problem) => sentence('mine', problem));
}

it('reads a profile, with or without a byte order mark', async () => {
  for (const mark of ['', '\uFEFF'])
    expect(await openPrinter(written(mark + JSON.stringify(defaultPrinter)))).toEqual(defaultPrinter);
});

it('brings version 1 up to today', async () => {
  const { material, firstLayerError, levelSag, skew, ...old } = defaultPrinter;
  const path = written(JSON.stringify({ ...old, fettlePrinter: 1, layer: 0.16 }));
  expect(await openPrinter(path)).toEqual({
    ...old,
    fettlePrinter: 2,
    layer: 0.16,
    material,
    firstLayerError,
    levelSag,
    skew,
  });
});

it('names every field that is wrong, one line each', async () => {
  const { lineWidth: _, ...rest } = defaultPrinter;
  const lines = await refusal(
    written(JSON.stringify({ ...rest, layer: 7, lineWitdh: 0.4, bed: { x: 200, y: 'wide', z: 200 } })),
  );
  expect(lines).toHaveLength(4);
  expect(lines).toContain('mine: layer: 7 - allowed: at most 1');
  expect(lines).toContain('mine: bed.y: "wide" - allowed: a number');
  expect(lines.find((line) => line.startsWith('mine: lineWitdh:'))).toMatch(
    /is no field of a printer profile; .*Did you mean lineWidth\?$/,
  );
  expect(lines.find((line) => line.startsWith('mine: lineWidth:'))).toContain('is missing');
});

it.each([
  ['a newer version', JSON.stringify({ ...defaultPrinter, fettlePrinter: 3 }), 'comes from a newer Fettle'],
  ['a job', JSON.stringify({ fettle: 1, family: 'stabiliser-clip' }), 'fettlePrinter: - is missing'],
  ['a list', '[1, 2]', 'allowed: a printer profile'],
  ['nothing', 'null', 'allowed: a printer profile'],
  ['half a file', '{"fettlePrinter": 2,', 'not JSON'],
])('refuses %s in one line', async (_, text, words) => {
  const lines = await refusal(written(text));
  expect(lines).toHaveLength(1);
  expect(lines[0]).toContain(words);
});

it('refuses what is no file', async () => {
  expect(await refusal(join(bench.folder, 'none.json'))).toHaveLength(1);
  mkdirSync(join(bench.folder, 'folder'));
  expect(await refusal(join(bench.folder, 'folder'))).toEqual([
    expect.stringContaining('allowed: a printer profile'),
  ]);
});
