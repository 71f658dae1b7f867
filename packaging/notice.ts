import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A package of others that is inside what was built. */
export interface Inside {
  readonly name: string;
  readonly version: string;
  /** As the package states it, an SPDX expression. */
  readonly licence: string;
  /** Texts that go with it, as they are in the package. */
  readonly texts: readonly string[];
}

/** Packages that files lie in, paths below `node_modules`, by name. Throws where one states no licence. */
export function packagesOf(files: readonly string[]): readonly Inside[] {
  const folders = new Set(files.flatMap((file) => folderOf(file) ?? []));
  const found = [...folders].map(insideAt);
  const unique = new Map(found.map((one) => [`${one.name} ${one.version}`, one]));
  return [...unique.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** Folder of the package a file lies in: the nearest one that has a name and a version. */
function folderOf(file: string): string | undefined {
  const at = file.lastIndexOf('node_modules/');
  if (at < 0) return undefined;
  const root = file.slice(0, at + 'node_modules/'.length);
  const steps = file.slice(root.length).split('/');
  return join(root, ...steps.slice(0, steps[0]!.startsWith('@') ? 2 : 1));
}

function insideAt(folder: string): Inside {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  if (typeof license !== 'string') throw new Error(`packages must state their licence (${folder})`);
  const texts = readdirSync(folder)
    .filter((file) => /^(licen[cs]e|notice|copying|ofl)/i.test(file))
    .map((file) => readFileSync(join(folder, file), 'utf8').trim());
  return { name, version, licence: license, texts };
}

/** What has to be said of the work of others inside `what`. A text that several packages share stands once. */
export function noticeOf(what: string, inside: readonly Inside[]): string {
  const texts = new Map<string, string[]>();
  for (const { name, version, licence, texts: own } of inside) {
    const text = own.length > 0 ? own.join('\n\n') : `${licence}; the package has no text of it`;
    texts.set(text, [...(texts.get(text) ?? []), `${name} ${version} (${licence})`]);
  }
  return [
    `Inside ${what} of Fettle is work of others, on these terms.`,
    ...[...texts].map(([text, names]) => `${'-'.repeat(80)}\n${names.join('\n')}\n\n${text}`),
  ]
    .join('\n\n')
    .concat('\n');
}
