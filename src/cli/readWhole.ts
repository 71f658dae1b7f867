import { open, stat } from 'node:fs/promises';
import type { Problem } from '../job/problem.ts';

const MIB = 1024 * 1024;

/** Bytes of a plain file of at most `largest` bytes, or what is wrong with it; `what` is allowed. Kind and size are looked at
 *  before anything is opened, so that a device or a disk image does no harm, and once more after the last byte: what changed
 *  under the reader's eyes may be half the old and half the new. Throws what the system says. */
export async function readWhole(
  path: string,
  { what, largest }: { readonly what: string; readonly largest: number },
): Promise<Uint8Array | Omit<Problem, 'field'>> {
  const found = await stat(path);
  if (found.isDirectory()) return { code: 'not_a_file', value: 'a folder', allowed: what };
  if (!found.isFile()) return { code: 'not_a_file', value: 'not a plain file', allowed: what };
  if (found.size > largest) {
    const value = `${(found.size / MIB).toFixed(1)} MiB`;
    return { code: 'file_too_large', value, allowed: `${what}, at most ${largest / MIB} MiB` };
  }
  const file = await open(path);
  try {
    const before = await file.stat({ bigint: true });
    const bytes = await file.readFile();
    const after = await file.stat({ bigint: true });
    if (before.size === after.size && before.mtimeNs === after.mtimeNs) return bytes;
    const allowed = `${what} that nobody writes into meanwhile`;
    return { code: 'changed_while_read', value: 'changed while it was read', allowed };
  } finally {
    await file.close();
  }
}
