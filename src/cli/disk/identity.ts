import { lstatSync } from 'node:fs';

/** What tells a file from any other and from itself after a change, without reading it; null where there is none. */
export function identityOf(path: string): string | null {
  const found = lstatSync(path, { bigint: true, throwIfNoEntry: false });
  return found === undefined ? null : `${found.ino}-${found.size}-${found.mtimeNs}`;
}
