import { nameFault, sameName } from './nameFault.ts';
import type { ArchiveEntry } from './zipArchive.ts';

/** An entry that must not become a file, and why, as the end of a sentence that begins with its name. */
export interface EntryFault {
  readonly name: string;
  readonly fault: string;
}

const PLAIN_FILE = 0o100000;
const FOLDER = 0o040000;

/** What an archive asks for that no plain file in one folder is: names that lead elsewhere or that systems read
 *  differently, two names for one file, links and devices, locked content. Empty for an archive that may be unpacked. */
export function entryFaults(entries: ReadonlyMap<string, ArchiveEntry>): readonly EntryFault[] {
  const seen = new Map<string, string>();
  const folders = new Set<string>();
  const listed = [...entries].map(([name, entry]) => {
    const isFolder = name.endsWith('/');
    const path = isFolder ? name.slice(0, -1) : name;
    const steps = sameName(path).split('/');
    for (let k = 1; k < steps.length + (isFolder ? 1 : 0); k++) folders.add(steps.slice(0, k).join('/'));
    return { name, path, entry, isFolder };
  });
  return listed.flatMap(({ name, path, entry, isFolder }) => {
    const say = (fault: string | undefined): EntryFault[] => (fault === undefined ? [] : [{ name, fault }]);
    const wrong = nameFault(path);
    if (wrong !== undefined) return say(`is a name that ${wrong}`);
    const other = seen.get(sameName(path));
    seen.set(sameName(path), name);
    return say(
      encodingFault(entry) ??
        (other !== undefined ? `is in it twice, for ${JSON.stringify(other)} is the same name` : undefined) ??
        (!isFolder && folders.has(sameName(path)) ? 'is a file and a folder at once' : undefined) ??
        kindFault(entry, isFolder),
    );
  });
}

/** A name of other than ASCII letters must say that it is UTF-8, or every reader makes its own of it. */
function encodingFault({ rawName, utf8 }: ArchiveEntry): string | undefined {
  try {
    new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(rawName);
  } catch {
    return 'is a name in no known letters';
  }
  return utf8 || rawName.every((byte) => byte < 0x80)
    ? undefined
    : 'is a name that does not say which letters it is in';
}

function kindFault(
  { unixKind, encrypted, method, unpacked }: ArchiveEntry,
  isFolder: boolean,
): string | undefined {
  if (encrypted) return 'is encrypted';
  if (unixKind !== 0 && unixKind !== (isFolder ? FOLDER : PLAIN_FILE))
    return unixKind === 0o120000 ? 'is a link' : 'is no plain file';
  if (isFolder && unpacked > 0) return 'is a folder with content of its own';
  return method === 0 || method === 8 ? undefined : `is packed by method ${method}`;
}
