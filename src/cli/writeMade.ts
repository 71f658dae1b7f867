import { join } from 'node:path';
import { sha256Hex } from '../job/hash.ts';
import type { MakeResult } from '../job/result.ts';
import { stl } from '../output/stl.ts';
import { mustSpare } from './mustSpare.ts';
import { resultObject } from '../job/resultObject.ts';
import { writeTogether } from './writeTogether.ts';

interface Where {
  /** Name of the files, without extension. */
  readonly base: string;
  readonly out: string;
  /** Files the result was made from, none of which is written over. */
  readonly sources: readonly string[];
  readonly ascii: boolean;
  /** Further fields of the result. */
  readonly besides?: object;
}

/** Writes the STL of every part and the result beside them, all or none. Gives the result as text and the paths written. */
export async function writeMade(
  result: MakeResult,
  { base, out, sources, ascii, besides = {} }: Where,
): Promise<{ readonly text: string; readonly paths: readonly string[] }> {
  const report = `${base}.json`;
  const models = result.parts.map(({ id, name, mesh, print: { triangles } }) => {
    const part = name === '' ? result.job.title : `${result.job.title}, ${name}`;
    const bytes = stl(mesh, { part, unit: 'mm', hash: result.job.hash, ascii });
    return { name: id === '' ? `${base}.stl` : `${base}-${id}.stl`, bytes, triangles, id };
  });
  const names = [...models.map(({ name }) => name), report];
  await mustSpare(sources, out, names);

  const files = models.map(({ name, bytes, triangles, id }) => ({
    ...{ path: join(out, name), kind: 'stl' as const, sha256: sha256Hex(bytes), triangles },
    ...(id !== '' && { part: id }),
  }));
  const text = `${JSON.stringify({ ...resultObject(result, files), ...besides }, null, 2)}\n`;
  await writeTogether(out, [...models, { name: report, bytes: new TextEncoder().encode(text) }]);
  return { text, paths: names.map((name) => join(out, name)) };
}
