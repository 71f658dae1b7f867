import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** Whether a file is there and no older than everything in the folders and files it is made from. */
export async function isBuilt(made: string, from: readonly string[]): Promise<boolean> {
  const built = await stat(made).catch(() => undefined);
  if (!built) return false;
  const times = await Promise.all(from.map(newestIn));
  return Math.max(...times) <= built.mtimeMs;
}

/** Time of the newest file in a folder and those below it, or of a file, ms since 1970; 0 where there is none. */
async function newestIn(path: string): Promise<number> {
  const found = await stat(path).catch(() => undefined);
  if (!found?.isDirectory()) return found?.mtimeMs ?? 0;
  const inside = await readdir(path);
  const times = await Promise.all(inside.map((name) => newestIn(join(path, name))));
  return Math.max(0, ...times);
}
