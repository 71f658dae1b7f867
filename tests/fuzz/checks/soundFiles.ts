import { createHash } from 'node:crypto';
import type { CommandRun } from '../commandRun.ts';
import { mustBeWithoutSlips } from './slips.ts';
import { mustBeSolid } from './soundSolid.ts';

interface Listed {
  readonly path: string;
  readonly sha256: string;
}

interface Options {
  /** Two triangles at each edge of a model, and no more. */
  readonly whole?: boolean;
  /** Names that were there before. */
  readonly given?: readonly string[];
}

/** Throws unless everything a command left behind is whole: models close, texts have no slips, JSON is JSON and lists its
 *  files by their true hashes, nothing is left over from writing. */
export function mustBeSoundFiles(
  { files, said }: Pick<CommandRun, 'files' | 'said'>,
  { whole = true, given = [] }: Options = {},
): void {
  mustBeWithoutSlips('the terminal', said);
  for (const [name, bytes] of files) {
    if (given.includes(name)) continue;
    if (/(^|\/)\./.test(name)) throw new Error(`${name} was left over`);
    if (/\.(stl|3mf)$/.test(name)) mustBeSolid(name, bytes, { whole });
    else if (/\.(svg|html|txt)$/.test(name)) mustBeWithoutSlips(name, strict(bytes), { nulls: true });
    else if (name.endsWith('.json')) mustListTruly(name, strict(bytes), files);
    else if (bytes.length === 0) throw new Error(`${name} is empty`);
  }
}

const strict = (bytes: Uint8Array): string => new TextDecoder('utf-8', { fatal: true }).decode(bytes);

function mustListTruly(name: string, text: string, files: CommandRun['files']): void {
  mustBeWithoutSlips(name, text);
  const { files: listed = [] } = JSON.parse(text) as { readonly files?: readonly Listed[] };
  if (!Array.isArray(listed)) return;
  for (const { path, sha256 } of listed) {
    const [, bytes] =
      [...files].find(([file]) => path === file || path.endsWith(`/${file}`) || file.endsWith(`/${path}`)) ??
      [];
    if (bytes === undefined) throw new Error(`${name} lists ${path}, which is not there`);
    if (createHash('sha256').update(bytes).digest('hex') !== sha256)
      throw new Error(`${name} lists ${path} with another hash`);
  }
}
