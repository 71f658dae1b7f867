import { ArchiveRefusal } from '../archive/archiveRefusal.ts';
import { entryFaults } from '../archive/entryFaults.ts';
import { sameName } from '../archive/nameFault.ts';
import { shown as quoted } from '../archive/shown.ts';
import { beginsAsZip, type ZipArchive, zipArchive } from '../archive/zipArchive.ts';
import {
  BUNDLE_VERSION,
  type BundledFile,
  type BundledKind,
  MANIFEST,
  type Manifest,
  manifestSchema,
  namesOf,
} from '../output/bundle/index.ts';
import { bundleLimits } from './bundleLimits.ts';
import { sha256Hex } from './hash.ts';
import { keysAt } from './keysAt.ts';
import { parseJson } from './parseJson.ts';
import { type Problem, Refused } from './problem.ts';
import { problemsOf, shown } from './zodProblems.ts';

/** What a bundle holds, every byte of it as its list says. Nothing is said yet about the job in it. */
export interface Bundle {
  readonly manifest: Manifest;
  /** In the order of the list. */
  readonly files: readonly BundledFile[];
  /** Values of the JSON files among them. */
  readonly job: BundledValue;
  readonly printer: BundledValue | undefined;
  readonly donor: BundledFile | undefined;
}

export interface BundledValue {
  readonly path: string;
  readonly value: unknown;
}

export const A_BUNDLE = 'a bundle, as "fettle bundle" makes it';
const WHOLE = 'a whole bundle; fetch or copy it again';
/** Problems told of one bundle; a hostile one may have thousands. */
const MOST = 20;
/** Kinds of which a bundle has at most one. */
const SINGLE: readonly BundledKind[] = ['readme', 'job', 'printer', 'donor', 'result'];

/** Reads a bundle, which anybody may have made: holds it to `bundleLimits` before anything is unpacked, takes no entry that
 *  could be anything but a plain file in the folder it is opened in, and none that is not what the list says. Nothing is
 *  run, nothing is written. Throws `Refused` with every problem found, the first twenty of them. */
export function readBundle(bytes: Uint8Array): Bundle {
  if (!beginsAsZip(bytes)) {
    const value = bytes.length === 0 ? 'an empty file' : 'no zip archive';
    throw new Refused([{ code: 'not_a_bundle', field: '', value, allowed: A_BUNDLE }]);
  }
  try {
    return opened(zipArchive(bytes, bundleLimits, WHOLE));
  } catch (error) {
    if (!(error instanceof ArchiveRefusal)) throw error;
    const { code, given, allowed } = error;
    throw new Refused([{ code, field: '', value: given, allowed }]);
  }
}

function opened(archive: ZipArchive): Bundle {
  refuseAll(entryFaults(archive.entries).map(({ name, fault }) => unsafe(name, fault)));
  const all = [...archive.entries.values()].reduce((sum, { unpacked }) => sum + unpacked, 0);
  if (all > bundleLimits.allBytes)
    throw new ArchiveRefusal(
      'archive_too_large',
      `it unpacks to ${all} bytes`,
      `at most ${bundleLimits.allBytes / 2 ** 20} MiB in all`,
    );
  const manifest = manifestOf(archive);
  refuseAll(listProblems(manifest, archive));
  const files = manifest.files.map(({ path, kind }) => ({ path, kind, bytes: archive.part(path)! }));
  refuseAll(
    manifest.files.flatMap(({ path, bytes, sha256 }, k) =>
      files[k]!.bytes.length === bytes && sha256Hex(files[k]!.bytes) === sha256
        ? []
        : [
            {
              code: 'bundle_changed',
              field: '',
              value: quoted(path),
              allowed: WHOLE,
              reason: 'is not what was bundled',
            },
          ],
    ),
  );
  const one = (kind: BundledKind) => files.find((file) => file.kind === kind);
  const printer = one('printer');
  return {
    manifest,
    files,
    job: jsonIn(one('job')!),
    printer: printer && jsonIn(printer),
    donor: one('donor'),
  };
}

function refuseAll(problems: readonly Problem[]): void {
  if (problems.length > 0) throw new Refused(problems.slice(0, MOST));
}

const unsafe = (name: string, reason: string): Problem => ({
  code: 'bundle_entry_unsafe',
  field: '',
  value: quoted(name),
  allowed: 'plain files with names that mean the same on every system',
  reason,
});

function manifestOf(archive: ZipArchive): Manifest {
  if (!archive.entries.has(MANIFEST)) {
    throw new Refused([
      {
        code: 'not_a_bundle',
        field: '',
        value: 'a zip archive',
        allowed: A_BUNDLE,
        reason: `without ${MANIFEST} in it`,
      },
    ]);
  }
  const { value } = jsonIn({ path: MANIFEST, bytes: archive.part(MANIFEST)! });
  const at = (field: string) => (field === '' ? MANIFEST : `${MANIFEST} ${field}`);
  const version: unknown =
    typeof value === 'object' && value !== null ? Reflect.get(value, 'fettleBundle') : undefined;
  if (version !== BUNDLE_VERSION) {
    const reason =
      typeof version === 'number' && version > BUNDLE_VERSION
        ? 'comes from a newer Fettle'
        : version === undefined
          ? 'is missing'
          : 'is no version of a bundle';
    throw new Refused([
      {
        code: 'version_unknown',
        field: at('fettleBundle'),
        value: shown(version),
        allowed: String(BUNDLE_VERSION),
        reason,
      },
    ]);
  }
  const parsed = manifestSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const problems = problemsOf(value, parsed.error, keysAt(manifestSchema), 'a bundle');
  throw new Refused(problems.slice(0, MOST).map((problem) => ({ ...problem, field: at(problem.field) })));
}

/** Where the list and the archive do not tell of the same files, or the list of files that no bundle has. */
function listProblems({ files }: Manifest, archive: ZipArchive): Problem[] {
  const problem = (value: string, allowed: string, reason: string): Problem => ({
    code: 'bundle_list_wrong',
    field: MANIFEST,
    value,
    allowed,
    reason,
  });
  const seen = new Set<string>([sameName(MANIFEST)]);
  const problems = files.flatMap(({ path, kind }): Problem[] => {
    const name = quoted(path);
    if (!archive.entries.has(path))
      return [problem(name, 'files that are in the bundle', 'is listed and not there')];
    if (seen.has(sameName(path))) return [problem(name, 'each file once', 'is listed twice, or is the list')];
    seen.add(sameName(path));
    const { pattern, words } = namesOf[kind];
    return pattern.test(path) ? [] : [problem(name, words, `is listed as ${kind}`)];
  });
  for (const [name] of archive.entries)
    if (!name.endsWith('/') && !seen.has(sameName(name)))
      problems.push(problem(quoted(name), 'files that are listed', 'is there and not listed'));
  for (const kind of SINGLE) {
    const many = files.filter((file) => file.kind === kind).length;
    if (many > 1) problems.push(problem(`${many} files`, 'at most one', `are listed as ${kind}`));
    if (many === 0 && kind === 'job') problems.push(problem('no job', 'one job', 'is listed'));
  }
  return problems;
}

/** The value of a JSON file in a bundle. Throws `Refused`, blaming the file. */
function jsonIn({ path, bytes }: Pick<BundledFile, 'path' | 'bytes'>): BundledValue {
  const refuse = (code: string, value: string, allowed: string) =>
    new Refused([{ code, field: quoted(path), value, allowed }]);
  if (bytes.length > bundleLimits.textBytes)
    throw refuse(
      'file_too_large',
      `${bytes.length} bytes`,
      `at most ${bundleLimits.textBytes / 2 ** 20} MiB`,
    );
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw refuse('not_utf8', 'not UTF-8 text', 'JSON in UTF-8');
  }
  const parsed = parseJson(text, quoted(path));
  if (!('json' in parsed)) throw new Refused([parsed]);
  return { path, value: parsed.json };
}
