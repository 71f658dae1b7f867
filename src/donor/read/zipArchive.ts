import { Inflate } from 'fflate';
import { DonorRefusal } from '../donorRefusal.ts';
import { limits } from './limits.ts';

/** One part of an archive as its directory lists it. */
interface Entry {
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

/** Reads the directory of an archive and holds it to limits before anything is unpacked: number of parts, their sizes,
 *  how far they grow, names that lead out of the archive. A directory of its own, since an unpacker that believes the
 *  counts would set aside what a hostile file asks for. Layout: APPNOTE.TXT - .ZIP File Format Specification 6.3,
 *  PKWARE, sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16, 4.5.3 (some writers use its 64-bit numbers for the smallest file).
 *
 *  Throws `donor_archive_damaged`, `donor_archive_unsafe`, `donor_too_large`. */
export function zipArchive(bytes: Uint8Array): ZipArchive {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const entries = directory(bytes, view);
  const folded = new Map([...entries].map(([name, entry]) => [name.toLowerCase(), { name, entry }]));
  let all = 0;
  return {
    has: (name) => folded.has(name.toLowerCase()),
    part: (name) => {
      const found = folded.get(name.toLowerCase());
      if (found === undefined) return null;
      all += found.entry.unpacked;
      if (all > limits.allBytes)
        throw new DonorRefusal(
          'donor_too_large',
          'more text than fits',
          inMebibytes(limits.allBytes, 'in all'),
        );
      return unpack(bytes, view, found.name, found.entry);
    },
  };
}

const damaged = (given: string): DonorRefusal =>
  new DonorRefusal('donor_archive_damaged', given, 'a whole 3MF archive; save or copy it again');
const inMebibytes = (size: number, of: string): string => `at most ${size / 2 ** 20} MiB ${of}`;

function directory(bytes: Uint8Array, view: DataView): Map<string, Entry> {
  let end = bytes.length - 22;
  // A comment of up to 65535 bytes may follow.
  const earliest = Math.max(0, end - 65535);
  while (end >= earliest && view.getUint32(end, true) !== END_OF_DIRECTORY) end--;
  if (end < earliest) throw damaged('the archive ends before its directory');
  const large = end >= 20 && view.getUint32(end - 20, true) === LARGE_LOCATOR;
  const { count, size, start } = large ? largeEnd(view, end) : smallEnd(view, end);
  let at = start;
  if (count > limits.parts)
    throw new DonorRefusal(
      'donor_too_large',
      `${count} parts in the archive`,
      `at most ${limits.parts} parts`,
    );
  if (at + size > end || count * ENTRY_BYTES > size)
    throw damaged('the directory of the archive does not fit in it');

  const entries = new Map<string, Entry>();
  for (let k = 0; k < count; k++) {
    if (at + ENTRY_BYTES > end || view.getUint32(at, true) !== DIRECTORY_ENTRY)
      throw damaged(`entry ${k + 1} of ${count} in the directory of the archive is unreadable`);
    const length = view.getUint16(at + 28, true);
    const after = at + ENTRY_BYTES + length;
    if (after > end)
      throw damaged(`entry ${k + 1} of ${count} in the directory of the archive is unreadable`);
    const name = new TextDecoder().decode(bytes.subarray(at + ENTRY_BYTES, after));
    const extra = view.getUint16(at + 30, true);
    const next = after + extra + view.getUint16(at + 32, true);
    if (next > end) throw damaged(`entry ${k + 1} of ${count} in the directory of the archive is unreadable`);
    const [unpacked, packed, local] = enlarged(view, after, after + extra, [
      view.getUint32(at + 24, true),
      view.getUint32(at + 20, true),
      view.getUint32(at + 42, true),
    ]);
    const entry = {
      method: view.getUint16(at + 10, true),
      encrypted: (view.getUint16(at + 8, true) & 1) === 1,
      packed,
      unpacked,
      checksum: view.getUint32(at + 16, true),
      at: local,
    };
    if (entries.has(name)) throw damaged(`${shown(name)} is in the archive twice`);
    hold(name, entry);
    entries.set(name, entry);
    at = next;
  }
  return entries;
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
function largeEnd(view: DataView, end: number): DirectoryEnd {
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
function hold(name: string, { packed, unpacked }: Entry): void {
  const unsafe =
    /^[/\\]|^[a-z]:|[\\\0]/i.test(name) || name.split('/').some((step) => step === '..' || step === '.');
  if (unsafe)
    throw new DonorRefusal(
      'donor_archive_unsafe',
      `a part named ${shown(name)}`,
      'names that stay inside the archive',
    );
  if (unpacked > limits.partBytes)
    throw new DonorRefusal(
      'donor_too_large',
      `${shown(name)} unpacks to ${unpacked} bytes`,
      inMebibytes(limits.partBytes, 'a part'),
    );
  if (unpacked > limits.smallPart && unpacked > limits.growth * packed)
    throw new DonorRefusal(
      'donor_archive_unsafe',
      `${shown(name)} grows from ${packed} to ${unpacked} bytes`,
      `parts that grow ${limits.growth}-fold at most`,
    );
}

const shown = (name: string): string => JSON.stringify(name.length > 60 ? `${name.slice(0, 60)}...` : name);

function unpack(bytes: Uint8Array, view: DataView, name: string, entry: Entry): Uint8Array {
  const { at, packed, unpacked } = entry;
  if (entry.encrypted)
    throw new DonorRefusal(
      'donor_archive_unsafe',
      `${shown(name)} is encrypted`,
      'archives without password',
    );
  if (entry.method !== 0 && entry.method !== 8)
    throw new DonorRefusal(
      'donor_archive_damaged',
      `${shown(name)} is packed by method ${entry.method}`,
      'parts stored or deflated',
    );
  if (at + 30 > bytes.length || view.getUint32(at, true) !== LOCAL_HEADER)
    throw damaged(`${shown(name)} is not where the directory of the archive says`);
  const from = at + 30 + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  if (from + packed > bytes.length) throw damaged(`${shown(name)} is cut short`);
  const data = bytes.subarray(from, from + packed);
  const whole = entry.method === 0 ? data : inflated(name, data, unpacked);
  if (whole.length !== unpacked || checksum(whole) !== entry.checksum)
    throw damaged(`${shown(name)} is not what was packed`);
  return whole;
}

/** Bytes given to the unpacker at a time: what it makes of them is checked before the next. */
const STEP = 2 ** 16;

/** Unpacks step by step and stops as soon as more comes out than the directory says. */
function inflated(name: string, data: Uint8Array, size: number): Uint8Array {
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
    throw error instanceof DonorRefusal ? error : damaged(`${shown(name)} cannot be unpacked`);
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
