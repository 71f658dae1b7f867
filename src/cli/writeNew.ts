import { randomBytes } from 'node:crypto';
import { link, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { RefusedFile } from './refusedFile.ts';
import { isSystemError, systemProblem } from './systemProblem.ts';

/** Writes a file that must not exist yet, whole or not at all. A hard link takes the name only if it is free, which
 *  renaming would not ask. Throws `RefusedFile` when the name is taken or the system refuses. */
export async function writeNew(path: string, text: string): Promise<void> {
  const aside = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}`);
  try {
    await writeFile(aside, text, { flag: 'wx' });
    await link(aside, path).catch(async (error: unknown) => {
      // Memory cards know no links.
      if (!isSystemError(error) || !['EPERM', 'ENOTSUP', 'ENOSYS'].includes(error.code ?? '')) throw error;
      await writeFile(path, text, { flag: 'wx' });
    });
  } catch (error) {
    throw new RefusedFile(path, [
      isSystemError(error) && error.code === 'EEXIST'
        ? { code: 'job_exists', field: '', value: 'exists already', allowed: 'a new name' }
        : systemProblem(error, '', 'a file name in a folder that can be written to'),
    ]);
  } finally {
    await rm(aside, { force: true });
  }
}
