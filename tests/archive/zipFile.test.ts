import { expect, it } from 'vitest';
import { zipFile } from '../../src/archive/zipFile.ts';
import { rawUnzip } from './rawZip.ts';

const files = [
  { name: 'b/long.txt', bytes: new TextEncoder().encode('the same again. '.repeat(4000)) },
  { name: 'a.txt', bytes: new TextEncoder().encode('short') },
  { name: 'Füße.stl', bytes: new Uint8Array(0) },
  { name: 'packed.3mf', bytes: Uint8Array.from({ length: 5000 }, (_, k) => (k * k * 7919) % 251) },
];

it('holds what was put in, in that order, as zlib and the layout of PKWARE have it', () => {
  const read = rawUnzip(zipFile(files));
  expect(read.map(({ name }) => name)).toEqual(files.map(({ name }) => name));
  read.forEach(({ data }, k) => {
    expect(data).toEqual(files[k]!.bytes);
  });
});

it('packs what is worth it', () => {
  const zip = zipFile(files);
  expect(zip.length).toBeLessThan(7000);
  expect(zip.length).toBeGreaterThan(5000);
});

it('gives the same bytes whatever the clock says, and one time to all: noon on 1 January 1980', () => {
  const zip = zipFile(files);
  expect(zipFile(files)).toEqual(zip);
  // MS-DOS date and time, APPNOTE.TXT 4.4.6: (year - 1980) << 9 | month << 5 | day; hours << 11.
  for (const { date, time } of rawUnzip(zip)) expect([date, time]).toEqual([(1 << 5) | 1, 12 << 11]);
});

it('refuses a name given twice', () => {
  expect(() => zipFile([files[1]!, files[1]!])).toThrow('a.txt twice');
});
