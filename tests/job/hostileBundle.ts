// Bundles that no Fettle wrote.
import { createHash } from 'node:crypto';
import { type RawEntry, rawZip } from '../archive/rawZip.ts';
import { demo } from './demo.ts';

export const sha256 = (data: Uint8Array | string) => createHash('sha256').update(data).digest('hex');

interface Listed {
  path: string;
  kind: string;
  bytes: number;
  sha256: string;
}

/** A list of a bundle, open to any change. */
export interface PlainManifest {
  [field: string]: unknown;
  files: Listed[];
}

const job = { ...demo(), printer: 'a.printer.json' };
const sound: readonly (RawEntry & { kind: string; data: string })[] = [
  { name: 'a.job.json', kind: 'job', data: JSON.stringify(job) },
  { name: 'a.printer.json', kind: 'printer', data: JSON.stringify(demo().printer) },
  { name: 'made/a.stl', kind: 'stl', data: 'solid a\nendsolid a\n' },
];

interface Changes {
  /** Files instead of the sound ones, or besides. */
  readonly files?: readonly (RawEntry & { kind: string })[];
  /** Entries that the list knows nothing of. */
  readonly besides?: readonly RawEntry[];
  readonly list?: (list: PlainManifest) => void;
  /** The list as text, whatever it is. */
  readonly text?: (text: string) => string;
}

/** A small bundle written field by field; sound where nothing is changed. */
export function hostileBundle({
  files = sound,
  besides = [],
  list,
  text = (same) => same,
}: Changes = {}): Uint8Array {
  const manifest: PlainManifest = {
    fettleBundle: 1,
    fettle: '0.1.0',
    title: 'Clip',
    family: 'stabiliser-clip',
    hash: 'a'.repeat(64),
    files: files.map(({ name, kind, data = '' }) => ({
      path: Buffer.from(name as string).toString(),
      kind,
      bytes: Buffer.from(data as string).length,
      sha256: sha256(data),
    })),
  };
  list?.(manifest);
  const written = text(JSON.stringify(manifest));
  return rawZip([{ name: 'fettle-bundle.json', data: written }, ...files, ...besides]);
}

/** The sound files, one of them changed. */
export const soundBut = (name: string, change: Partial<RawEntry & { kind: string }>) =>
  sound.map((file) => (file.name === name ? { ...file, ...change } : file));

export const soundAnd = (...more: (RawEntry & { kind: string })[]) => [...sound, ...more];
