import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { RefusedFile } from './refusedFile.ts';

/** Refuses to write over a file the result was made from: `clip.json` made into its own folder would be lost.
 *  Compared as files, not as names, so links and letter case do not fool it. */
export async function mustSpare(
  sources: readonly string[],
  folder: string,
  names: readonly string[],
): Promise<void> {
  const kept = await Promise.all(sources.map(identity));
  for (const name of names) {
    const target = await identity(join(folder, name));
    const source = target === undefined ? -1 : kept.indexOf(target);
    if (source === -1) continue;
    throw new RefusedFile(folder, [
      {
        code: 'output_over_input',
        field: name,
        value: `would overwrite ${sources[source]}`,
        allowed: 'another folder for --out',
      },
    ]);
  }
}

const identity = (path: string): Promise<string | undefined> =>
  stat(path, { bigint: true }).then(
    ({ dev, ino }) => `${dev}:${ino}`,
    () => undefined,
  );
