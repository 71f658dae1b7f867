import fc from 'fast-check';
import { type RawEntry, rawUnzip, rawZip } from '../../archive/rawZip.ts';

/** A change of an archive: of one number in one of its headers, or of what is packed into it. */
interface ZipChange {
  readonly what: 'number' | 'number' | 'entry' | 'more' | 'drop' | 'twice' | 'order';
  readonly at: number;
  readonly field: number;
  readonly value: number;
  readonly entry: Partial<RawEntry>;
}

const NAMES = [
  ...[
    '../x',
    '/x',
    'C:x',
    'a\\b',
    'a\0b',
    '',
    ' ',
    '.',
    '..',
    'CON',
    'aux.stl',
    'x.',
    'X'.repeat(300),
    'é',
    '\u202ex',
  ],
  ...[
    '3D/3dmodel.model',
    '_rels/.rels',
    '[Content_Types].xml',
    'fettle-bundle.json',
    'FETTLE-BUNDLE.JSON',
    'made/',
  ],
];

export const zipChanges: fc.Arbitrary<readonly ZipChange[]> = fc.array(
  fc.record({
    what: fc.constantFrom<ZipChange['what']>(
      'number',
      'number',
      'number',
      'entry',
      'more',
      'drop',
      'twice',
      'order',
    ),
    at: fc.nat(),
    field: fc.nat(),
    value: fc.constantFrom(
      0,
      1,
      2,
      8,
      9,
      99,
      0x7fff,
      0x8000,
      0xffff,
      0x10000,
      0x7fffffff,
      0x80000000,
      0xffffffff,
      0xfffffffe,
    ),
    entry: fc.oneof(
      fc.record({ name: fc.constantFrom(...NAMES) }),
      fc.record({ method: fc.constantFrom(0, 1, 8, 9, 12, 14, 99) }),
      fc.record({ flags: fc.constantFrom(0, 1, 8, 0x40, 0x800, 0x2000, 0xffff) }),
      fc.record({
        madeBy: fc.constantFrom(0, 3, 19),
        attributes: fc.constantFrom(0, 0o120777 << 16, 0o040755 << 16, -1),
      }),
      fc.record({ size: fc.constantFrom(0, 1, 2 ** 20, 2 ** 31, 2 ** 32 - 1) }),
      fc.record({ data: fc.constantFrom('', 'x', 'x'.repeat(300_000), '<', '{}', '\0\0') }),
      fc.record({ localName: fc.constantFrom(...NAMES) }),
      fc.record({ sharesWith: fc.constant(0) }),
    ),
  }),
  { minLength: 1, maxLength: 3 },
);

/** An archive packed again with the changes made. */
export function repacked(archive: Uint8Array, list: readonly ZipChange[]): Uint8Array {
  let entries: RawEntry[] = rawUnzip(archive).map(({ name, data }) => ({ name, data }));
  for (const { what, at, entry } of list) {
    if (entries.length === 0) break;
    const k = at % entries.length;
    if (what === 'entry') entries[k] = { ...entries[k]!, ...entry };
    if (what === 'more') entries.push({ data: 'more', ...entry, name: entry.name ?? 'more.txt' });
    if (what === 'drop') entries = entries.filter((_, n) => n !== k);
    if (what === 'twice') entries.push(entries[k]!);
    if (what === 'order') entries = [...entries.slice(k), ...entries.slice(0, k)];
  }
  const bytes = rawZip(
    entries.map((entry, k) => (k === 0 ? { ...entry, sharesWith: undefined } : entry) as RawEntry),
  );
  for (const { what, at, field, value } of list) if (what === 'number') overwrite(bytes, at, field, value);
  return bytes;
}

/** Signatures of local header, directory and end, and how many bytes of numbers follow (APPNOTE.TXT 4.3.7, 4.3.12, 4.3.16). */
const HEADERS = [
  { mark: [0x50, 0x4b, 3, 4], numbers: 26 },
  { mark: [0x50, 0x4b, 1, 2], numbers: 42 },
  { mark: [0x50, 0x4b, 5, 6], numbers: 18 },
] as const;

function overwrite(bytes: Uint8Array, at: number, field: number, value: number): void {
  const found = HEADERS.flatMap(({ mark, numbers }) => {
    const places: { at: number; numbers: number }[] = [];
    for (let k = 0; k + 4 + numbers <= bytes.length; k++)
      if (mark.every((byte, n) => bytes[k + n] === byte)) places.push({ at: k + 4, numbers });
    return places;
  });
  const header = found[at % Math.max(1, found.length)];
  if (header === undefined) return;
  const view = new DataView(bytes.buffer, bytes.byteOffset + header.at, header.numbers);
  const place = 2 * (field % (header.numbers / 2));
  if (value > 0xffff && place + 4 <= header.numbers) view.setUint32(place, value, true);
  else view.setUint16(place, value & 0xffff, true);
}
