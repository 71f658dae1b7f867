import { describe, expect, it } from 'vitest';
import { ArchiveRefusal } from '../../src/archive/archiveRefusal.ts';
import { entryFaults } from '../../src/archive/entryFaults.ts';
import { zipArchive } from '../../src/archive/zipArchive.ts';
import { type RawEntry, rawZip } from './rawZip.ts';

const limits = { parts: 10, partBytes: 1e6, allBytes: 2e6, growth: 50, smallPart: 1e4 };
const open = (entries: readonly RawEntry[]) => zipArchive(rawZip(entries), limits, 'a whole archive');
const refusal = (work: () => unknown) => {
  try {
    work();
  } catch (error) {
    if (error instanceof ArchiveRefusal) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

it('lists and unpacks what another writer packed, stored or deflated', () => {
  const archive = open([
    { name: 'a.txt', data: 'hello '.repeat(100) },
    { name: 'b.bin', data: Uint8Array.of(1, 2, 3), method: 0 },
  ]);
  expect([...archive.entries.keys()]).toEqual(['a.txt', 'b.bin']);
  expect(new TextDecoder().decode(archive.part('A.TXT')!)).toBe('hello '.repeat(100));
  expect(archive.part('b.bin')).toEqual(Uint8Array.of(1, 2, 3));
  expect(archive.part('c')).toBeNull();
});

describe('zipArchive refuses', () => {
  it.each<[string, readonly RawEntry[], string, RegExp]>([
    ['names out of it', [{ name: '../a' }], 'archive_unsafe', /"\.\.\/a"/],
    ['a name twice', [{ name: 'a' }, { name: 'a' }], 'archive_damaged', /"a" is in the archive twice/],
    [
      'more than any has',
      Array.from({ length: 11 }, (_, k) => ({ name: `${k}` })),
      'archive_too_large',
      /11/,
    ],
    ['a large part', [{ name: 'a', size: 2e6 }], 'archive_too_large', /"a" unpacks to 2000000/],
    ['a bomb', [{ name: 'a', data: new Uint8Array(5e5) }], 'archive_unsafe', /"a" grows from \d+ to 500000/],
    [
      'content counted twice',
      [
        { name: 'a', data: 'x'.repeat(50) },
        { name: 'b', data: 'x'.repeat(50), sharesWith: 0 },
      ],
      'archive_unsafe',
      /"a" and "b" share bytes/,
    ],
  ])('%s', (_, entries, code, given) => {
    const { code: found, given: said } = refusal(() => open(entries));
    expect([found, said]).toEqual([code, expect.stringMatching(given)]);
  });

  it('a part that has another name where its content is', () => {
    const archive = open([{ name: 'good.stl', localName: 'evil.stl', data: 'x' }]);
    expect(refusal(() => archive.part('good.stl')).given).toMatch(/"good\.stl" has another name/);
  });

  it.each([1, 0x41, 0x2000])('encrypted parts, flags %j', (flags) => {
    const archive = open([{ name: 'a', data: 'x', flags }]);
    expect(refusal(() => archive.part('a'))).toMatchObject({ code: 'archive_unsafe' });
  });

  it('a sum of parts beyond its limit', () => {
    const noise = (seed: number) => Uint8Array.from({ length: 9e3 }, (_, k) => Math.sin(k * seed) * 1e6);
    const zip = rawZip([1, 2, 3].map((k) => ({ name: `${k}`, data: noise(k) })));
    const archive = zipArchive(zip, { ...limits, allBytes: 2e4 }, 'a whole archive');
    archive.part('1');
    archive.part('2');
    expect(refusal(() => archive.part('3')).code).toBe('archive_too_large');
  });
});

describe('entryFaults', () => {
  const faults = (...entries: RawEntry[]) =>
    entryFaults(open(entries).entries).map(({ name, fault }) => `${name} ${fault}`);

  it('finds nothing in plain files, those that a Unix system packed with their folders among them', () => {
    expect(
      faults(
        { name: 'made/', madeBy: 3, attributes: 0o040755 << 16, method: 0 },
        { name: 'made/a.stl', madeBy: 3, attributes: 0o100644 << 16 },
        { name: 'Füße.stl' },
      ),
    ).toEqual([]);
  });
  it.each<[string, readonly RawEntry[], string]>([
    ['a link', [{ name: 'a', madeBy: 3, attributes: 0o120777 << 16 }], 'a is a link'],
    ['a device', [{ name: 'a', madeBy: 3, attributes: 0o020666 << 16 }], 'a is no plain file'],
    ['letter case', [{ name: 'a.STL' }, { name: 'A.stl' }], 'A.stl is in it twice'],
    ['a file that is a folder', [{ name: 'a' }, { name: 'a/b' }], 'a is a file and a folder'],
    [
      'code page letters',
      [{ name: Uint8Array.of(0x81), flags: 0 }],
      '\ufffd is a name that holds characters',
    ],
    ['unsaid letters', [{ name: 'é', flags: 0 }], 'é is a name that does not say'],
    ['a lock', [{ name: 'a', flags: 0x801 }], 'a is encrypted'],
    ['a rare packing', [{ name: 'a', method: 14 }], 'a is packed by method 14'],
    ['a folder that holds bytes', [{ name: 'a/', data: 'x' }], 'a/ is a folder with content'],
    ['devices', [{ name: 'com1.stl' }], 'com1.stl is a name that some systems keep'],
  ])('tells of %s', (_, entries, said) => {
    expect(faults(...entries)).toEqual([expect.stringContaining(said)]);
  });
});
