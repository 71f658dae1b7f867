import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { RefusedFile } from '../../src/cli/refusedFile.ts';
import { writeTogether } from '../../src/cli/writeTogether.ts';
import { contents, workshop } from './fettle.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const pair = [
  { name: 'a.stl', bytes: bytes('new a') },
  { name: 'a.json', bytes: bytes('new json') },
];

let bench: ReturnType<typeof workshop>;
beforeEach(() => {
  bench = workshop();
});
afterEach(() => bench.clear());

it('writes all files and nothing beside them, folders made when needed', async () => {
  const folder = join(bench.folder, 'deep', 'er');
  await writeTogether(folder, pair);
  expect(contents(bench.folder)).toEqual([
    'deep folder',
    'deep/er folder',
    'deep/er/a.json 8',
    'deep/er/a.stl 5',
  ]);
});

it('takes the place of what was there', async () => {
  writeFileSync(join(bench.folder, 'a.stl'), 'old, and longer than the new one');
  await writeTogether(bench.folder, pair);
  expect(readFileSync(join(bench.folder, 'a.stl'), 'utf8')).toBe('new a');
});

it.each([
  ['a folder has the name of the second file', (folder: string) => mkdirSync(join(folder, 'a.json'))],
  [
    'a link has the name of the second file',
    (folder: string) => symlinkSync('/dev/null', join(folder, 'a.json')),
  ],
])('changes nothing when %s', async (_, hinder) => {
  writeFileSync(join(bench.folder, 'a.stl'), 'old');
  hinder(bench.folder);
  const before = contents(bench.folder);
  await expect(writeTogether(bench.folder, pair)).rejects.toThrow(RefusedFile);
  expect(contents(bench.folder)).toEqual(before);
  expect(readFileSync(join(bench.folder, 'a.stl'), 'utf8')).toBe('old');
});

// A file in the way and a file system without room for anybody stop even the administrator, whom permissions do not.
it.each([
  ['below a file', 'file/out', 'not a directory'],
  ['a file itself', 'file', 'file already exists'],
  ['in /proc', '/proc/fettle', 'no such file or directory'],
])('refuses a folder %s', async (_, name, said) => {
  writeFileSync(join(bench.folder, 'file'), 'old');
  const before = contents(bench.folder);
  const folder = name.startsWith('/') ? name : join(bench.folder, name);
  const refused = await writeTogether(folder, pair).catch((error: unknown) => error);
  expect(refused).toBeInstanceOf(RefusedFile);
  expect((refused as RefusedFile).problems).toMatchObject([
    { field: '--out', value: expect.stringContaining(said) },
  ]);
  expect(contents(bench.folder)).toEqual(before);
});

it('takes back the folders it made when a file cannot be written', async () => {
  const long = { name: `${'n'.repeat(300)}.json`, bytes: bytes('x') };
  await expect(writeTogether(join(bench.folder, 'new', 'out'), [pair[0]!, long])).rejects.toThrow(
    RefusedFile,
  );
  expect(contents(bench.folder)).toEqual([]);
});
