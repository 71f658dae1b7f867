import { Inflate } from 'fflate';
import { ArchiveRefusal } from './archiveRefusal.ts';
import { shown } from './shown.ts';

/** What an archive may ask for; nothing is set aside by what it says of itself before it is held to these. */
export interface ArchiveLimits {
  /** Parts in it. */
  readonly parts: number;
  /** Bytes of one part, unpacked. */
  readonly partBytes: number;
  /** Bytes of all parts that are unpacked. */
  readonly allBytes: number;
  /** Times a part may grow when unpacked, once it is larger than `smallPart` bytes. Deflate itself ends at 1032. */
  readonly growth: number;
  readonly smallPart: number;
}

/** One part of an archive as its directory lists it. */
export interface ArchiveEntry {
  /** Bytes of its name as they stand in the file, and whether they are declared to be UTF-8. */
  readonly rawName: Uint8Array;
  readonly utf8: boolean;
  /** What kind of file it was by the words of a Unix system, 0 where nothing is said: 0o100000 a plain file, 0o040000 a
   *  folder, 0o120000 a link. */
  readonly unixKind: number;
  readonly method: number;
  readonly encrypted: boolean;
  readonly packed: number;
  readonly unpacked: number;
  readonly checksum: number;
  /** Where its local header begins. */
  readonly at: number;
}

/** A ZIP archive of which single parts are unpacked when asked for. */
export interface ZipArchive {
  /** By name, in the order of the directory. */
  readonly entries: ReadonlyMap<string, ArchiveEntry>;
  readonly has: (name: string) => boolean;
  /** One part, unpacked; null when there is none of that name, upper or lower case. */
  readonly part: (name: string) => Uint8Array | null;
}

const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_HEADER = 0x04034b50;
const LARGE_END = 0x06064b50;
const LARGE_LOCATOR = 0x07064b50;
const LARGE_FIELD = 1;
const ALL_ONES = 0xffffffff;
const ENTRY_BYTES = 46;
/** Flags 0, 6 and 13 of section 4.4.4: encrypted, strongly, and with a directory that hides. */
const ENCRYPTED = 0x2041;

/** A file's first bytes say that it is a ZIP archive. */
export const beginsAsZip = (bytes: Uint8Array): boolean =>
  bytes.length >= 4 && bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2]! < 9 && bytes[3]! < 9;

/** Reads the directory of an archive and holds it to limits before anything is unpacked: number of parts, their sizes,
 *  how far they grow, names that lead out of the archive. A directory of its own, since an unpacker that believes the
 *  counts would set aside what a hostile file asks for. Layout: APPNOTE.TXT - .ZIP File Format Specification 6.3,
 *  PKWARE, sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16, 4.5.3 (some writers use its 64-bit numbers for the smallest file).
 *
 *  `whole` says what a good file is, for the end of a sentence: "a whole 3MF archive".
 *  Throws `archive_damaged`, `archive_unsafe`, `archive_too_large`. */
export function zipArchive(bytes: Uint8Array, limits: ArchiveLimits, whole: string): ZipArchive {
  const damaged = (given: string) => new ArchiveRefusal('archive_damaged', given, whole);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const entries = directory({ bytes, view, limits, damaged });
  const folded = new Map([...entries].map(([name, entry]) => [name.toLowerCase(), { name, entry }]));
  let all = 0;
  return {
    entries,
    has: (name) => folded.has(name.toLowerCase()),
    part: (name) => {
      const found = folded.get(name.toLowerCase());
      if (found === undefined) return null;
      all += found.entry.unpacked;
      if (all > limits.allBytes)
        throw new ArchiveRefusal(
          'archive_too_large',
          'more text than fits',
          inMebibytes(limits.allBytes, 'in all'),
        );
      return unpack({ bytes, view, limits, damaged }, found.name, found.entry);
    },
  };
}

/** A file that is being read. */
interface Reading {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  readonly limits: ArchiveLimits;
  readonly damaged: (given: string) => ArchiveRefusal;
}

const inMebibytes = (size: number, of: string): string => `at most ${size / 2 ** 20} MiB ${of}`;

function directory({ bytes, view, limits, damaged }: Reading): Map<string, ArchiveEntry> {
  let end = bytes.length - 22;
  // A comment of up to 65535 bytes may follow.
  const earliest = Math.max(0, end - 65535);
  while (end >= earliest && view.getUint32(end, true) !== END_OF_DIRECTORY) end--;
  if (end < earliest) throw damaged('the archive ends before its directory');
  const large = end >= 20 && view.getUint32(end - 20, true) === LARGE_LOCATOR;
  const { count, size, start } = large ? largeEnd(view, end, damaged) : smallEnd(view, end);
  let at = start;
  if (count > limits.parts)
    throw new ArchiveRefusal(
      'archive_too_large',
      `${count} parts in the archive`,
      `at most ${limits.parts} parts`,
    );
  if (at + size > end || count * ENTRY_BYTES > size)
    throw damaged('the directory of the archive does not fit in it');

  const entries = new Map<string, ArchiveEntry>();
  for (let k = 0; k < count; k++) {
    if (at + ENTRY_BYTES > end || view.getUint32(at, true) !== DIRECTORY_ENTRY)
      throw damaged(`entry ${k + 1} of ${count} in the directory of the archive is unreadable`);
    const length = view.getUint16(at + 28, true);
    const after = at + ENTRY_BYTES + length;
    if (after > end)
      throw damaged(`entry ${k + 1} of ${count} in the directory of the archive is unreadable`);
    const rawName = bytes.subarray(at + ENTRY_BYTES, after);
    const name = new TextDecoder().decode(rawName);
    const extra = view.getUint16(at + 30, true);
    const next = after + extra + view.getUint16(at + 32, true);
    if (next > end) throw damaged(`entry ${k + 1} of ${count} in the directory of the archive is unreadable`);
    const [unpacked, packed, local] = enlarged(view, after, after + extra, [
      view.getUint32(at + 24, true),
      view.getUint32(at + 20, true),
      view.getUint32(at + 42, true),
    ]);
    const flags = view.getUint16(at + 8, true);
    const entry = {
      rawName,
      utf8: (flags & 0x800) !== 0,
      // The upper half of the attributes, where the upper byte of the version says Unix, or OS X (4.4.2).
      unixKind: [3, 19].includes(view.getUint8(at + 5)) ? view.getUint16(at + 40, true) & 0o170000 : 0,
      method: view.getUint16(at + 10, true),
      encrypted: (flags & ENCRYPTED) !== 0,
      packed,
      unpacked,
      checksum: view.getUint32(at + 16, true),
      at: local,
    };
    if (entries.has(name)) throw damaged(`${shown(name)} is in the archive twice`);
    hold(name, entry, limits);
    entries.set(name, entry);
    at = next;
  }
  mustStandApart(entries);
  return entries;
}

/** Parts that share bytes unpack to more than any one of them tells. Local headers are not read yet: 30 bytes and the
 *  packed content are the least that each part takes. */
function mustStandApart(entries: ReadonlyMap<string, ArchiveEntry>): void {
  const inOrder = [...entries].sort(([, a], [, b]) => a.at - b.at);
  inOrder.forEach(([name, entry], k) => {
    const next = inOrder[k + 1];
    if (next !== undefined && entry.at + 30 + entry.packed > next[1].at)
      throw new ArchiveRefusal(
        'archive_unsafe',
        `${shown(name)} and ${shown(next[0])} share bytes`,
        'parts that stand one after the other',
      );
  });
}

interface DirectoryEnd {
  readonly count: number;
  readonly size: number;
  readonly start: number;
}

const smallEnd = (view: DataView, end: number): DirectoryEnd => ({
  count: view.getUint16(end + 10, true),
  size: view.getUint32(end + 12, true),
  start: view.getUint32(end + 16, true),
});

/** The same in numbers of 64 bits, where the locator before the end says. */
function largeEnd(view: DataView, end: number, damaged: Reading['damaged']): DirectoryEnd {
  const at = number64(view, end - 12);
  if (at + 56 > end - 20 || view.getUint32(at, true) !== LARGE_END)
    throw damaged('the directory of the archive is not where it should be');
  return {
    count: number64(view, at + 32),
    size: number64(view, at + 40),
    start: number64(view, at + 48),
  };
}

/** Sizes and place of an entry, those that are all ones taken from its field of 64-bit numbers, as far as there is one. */
function enlarged(
  view: DataView,
  from: number,
  to: number,
  short: readonly [number, number, number],
): [number, number, number] {
  const long: [number, number, number] = [...short];
  for (let at = from; at + 4 <= to; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== LARGE_FIELD) continue;
    let value = at + 4;
    const end = Math.min(to, value + view.getUint16(at + 2, true));
    for (let k = 0; k < 3; k++) {
      if (short[k] !== ALL_ONES || value + 8 > end) continue;
      long[k] = number64(view, value);
      value += 8;
    }
    break;
  }
  return long;
}

/** Rounded above 2^53, which is more than any limit. */
const number64 = (view: DataView, at: number): number => Number(view.getBigUint64(at, true));

/** Holds one entry to the limits, whether it is ever unpacked or not: one bad apple tells of the file. */
function hold(name: string, { packed, unpacked }: ArchiveEntry, limits: ArchiveLimits): void {
  const unsafe =
    /^[/\\]|^[a-z]:|[\\\0]/i.test(name) || name.split('/').some((step) => step === '..' || step === '.');
  if (unsafe)
    throw new ArchiveRefusal(
      'archive_unsafe',
      `a part named ${shown(name)}`,
      'names that stay inside the archive',
    );
  if (unpacked > limits.partBytes)
    throw new ArchiveRefusal(
      'archive_too_large',
      `${shown(name)} unpacks to ${unpacked} bytes`,
      inMebibytes(limits.partBytes, 'a part'),
    );
  if (unpacked > limits.smallPart && unpacked > limits.growth * packed)
    throw new ArchiveRefusal(
      'archive_unsafe',
      `${shown(name)} grows from ${packed} to ${unpacked} bytes`,
      `parts that grow ${limits.growth}-fold at most`,
    );
}

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, k) => byte === b[k]);

function unpack({ bytes, view, damaged }: Reading, name: string, entry: ArchiveEntry): Uint8Array {
  const { at, packed, unpacked } = entry;
  if (entry.encrypted)
    throw new ArchiveRefusal('archive_unsafe', `${shown(name)} is encrypted`, 'archives without password');
  if (entry.method !== 0 && entry.method !== 8)
    throw new ArchiveRefusal(
      'archive_damaged',
      `${shown(name)} is packed by method ${entry.method}`,
      'parts stored or deflated',
    );
  if (at + 30 > bytes.length || view.getUint32(at, true) !== LOCAL_HEADER)
    throw damaged(`${shown(name)} is not where the directory of the archive says`);
  const nameEnd = at + 30 + view.getUint16(at + 26, true);
  // What lists the archive and what unpacks it must mean the same.
  if (!sameBytes(bytes.subarray(at + 30, nameEnd), entry.rawName))
    throw damaged(`${shown(name)} has another name where its content is`);
  const from = nameEnd + view.getUint16(at + 28, true);
  if (from + packed > bytes.length) throw damaged(`${shown(name)} is cut short`);
  const data = bytes.subarray(from, from + packed);
  const whole = entry.method === 0 ? data : inflated(name, data, unpacked, damaged);
  if (whole.length !== unpacked || checksum(whole) !== entry.checksum)
    throw damaged(`${shown(name)} is not what was packed`);
  return whole;
}

/** Bytes given to the unpacker at a time: what it makes of them is checked before the next. */
const STEP = 2 ** 16;

/** Unpacks step by step and stops as soon as more comes out than the directory says. */
function inflated(name: string, data: Uint8Array, size: number, damaged: Reading['damaged']): Uint8Array {
  const out = new Uint8Array(size);
  let filled = 0;
  const inflate = new Inflate((piece) => {
    if (filled + piece.length > size)
      throw damaged(`${shown(name)} holds more than the directory of the archive says`);
    out.set(piece, filled);
    filled += piece.length;
  });
  try {
    for (let at = 0; at < data.length; at += STEP)
      inflate.push(data.subarray(at, at + STEP), at + STEP >= data.length);
  } catch (error) {
    throw error instanceof ArchiveRefusal ? error : damaged(`${shown(name)} cannot be unpacked`);
  }
  return out.subarray(0, filled);
}

const crcTable = Int32Array.from({ length: 256 }, (_, n) => {
  let crc = n;
  for (let k = 0; k < 8; k++) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1;
  return crc;
});

/** CRC-32 of ISO 3309, as ZIP uses it. */
function checksum(bytes: Uint8Array): number {
  let crc = -1;
  for (let k = 0; k < bytes.length; k++) crc = crcTable[(crc ^ bytes[k]!) & 0xff]! ^ (crc >>> 8);
  return (crc ^ -1) >>> 0;
}
