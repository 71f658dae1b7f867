// An archive written field by field, so that a test can say what no honest writer would. Layout: APPNOTE.TXT - .ZIP File
// Format Specification 6.3.10, PKWARE, sections 4.3.7, 4.3.12 and 4.3.16.
import { deflateRawSync, inflateRawSync } from 'node:zlib';

export interface RawEntry {
  readonly name: string | Uint8Array;
  readonly data?: Uint8Array | string;
  /** 8 deflates, which is what happens when nothing is said. */
  readonly method?: number;
  readonly flags?: number;
  /** Upper byte of "version made by": 3 for Unix. */
  readonly madeBy?: number;
  /** External attributes. */
  readonly attributes?: number;
  /** Name in the local header, where it differs. */
  readonly localName?: string;
  /** Size that the directory tells, where it lies. */
  readonly size?: number;
  /** Place in the list of the entry whose content it says is its own. */
  readonly sharesWith?: number;
}

const bytesOf = (text: string | Uint8Array): Buffer => Buffer.from(text as string);

/** CRC-32 bit by bit, as ISO 3309 defines it. */
function crc32(bytes: Uint8Array): number {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = (crc >>> 1) ^ (0xedb88320 & -(crc & 1));
  }
  return ~crc >>> 0;
}

export function rawZip(entries: readonly RawEntry[]): Uint8Array {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  const starts: number[] = [];
  let at = 0;
  for (const entry of entries) {
    const { method = 8, flags = 0x800, madeBy = 0, attributes = 0 } = entry;
    const data = bytesOf(entry.data ?? '');
    const packed = method === 8 ? deflateRawSync(data) : data;
    const head = (name: Buffer, extra: Buffer) => {
      const fields = Buffer.alloc(26);
      fields.writeUInt16LE(20, 0);
      fields.writeUInt16LE(flags, 2);
      fields.writeUInt16LE(method, 4);
      fields.writeUInt16LE(0x6000, 6);
      fields.writeUInt16LE(0x0021, 8);
      fields.writeUInt32LE(crc32(data), 10);
      fields.writeUInt32LE(packed.length, 14);
      fields.writeUInt32LE(entry.size ?? data.length, 18);
      fields.writeUInt16LE(name.length, 22);
      return Buffer.concat([fields, extra]);
    };
    const name = bytesOf(entry.name);
    const localName = bytesOf(entry.localName ?? entry.name);
    starts.push(entry.sharesWith === undefined ? at : starts[entry.sharesWith]!);
    if (entry.sharesWith === undefined) {
      const local = Buffer.concat([
        bytesOf(Uint8Array.of(0x50, 0x4b, 3, 4)),
        head(localName, Buffer.alloc(0)),
        localName,
        packed,
      ]);
      locals.push(local);
      at += local.length;
    }
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(attributes >>> 0, 6);
    rest.writeUInt32LE(starts.at(-1)!, 10);
    directory.push(
      Buffer.concat([bytesOf(Uint8Array.of(0x50, 0x4b, 1, 2, 63, madeBy)), head(name, rest), name]),
    );
  }
  const list = Buffer.concat(directory);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(list.length, 12);
  end.writeUInt32LE(at, 16);
  return Uint8Array.from(Buffer.concat([...locals, list, end]));
}

export interface RawRead {
  readonly name: string;
  readonly data: Uint8Array;
  readonly date: number;
  readonly time: number;
}

/** What an archive holds, by its directory and zlib alone: shares no code with what wrote it. */
export function rawUnzip(file: Uint8Array): readonly RawRead[] {
  const zip = Buffer.from(file);
  const end = zip.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6]));
  let at = zip.readUInt32LE(end + 16);
  return Array.from({ length: zip.readUInt16LE(end + 10) }, () => {
    const [nameSize, extra, comment] = [28, 30, 32].map((k) => zip.readUInt16LE(at + k)) as [
      number,
      number,
      number,
    ];
    const name = zip.toString('utf8', at + 46, at + 46 + nameSize);
    const local = zip.readUInt32LE(at + 42);
    const from = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const packed = zip.subarray(from, from + zip.readUInt32LE(at + 20));
    const data = zip.readUInt16LE(at + 10) === 0 ? packed : inflateRawSync(packed);
    if (crc32(data) !== zip.readUInt32LE(at + 16)) throw new Error(`${name} is damaged`);
    const read = {
      name,
      data: Uint8Array.from(data),
      time: zip.readUInt16LE(at + 12),
      date: zip.readUInt16LE(at + 14),
    };
    at += 46 + nameSize + extra + comment;
    return read;
  });
}
