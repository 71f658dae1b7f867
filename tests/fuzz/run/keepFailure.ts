import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Kind } from '../kind.ts';
import type { Case } from '../oneCase.ts';

export const KEPT = 'out/fuzz';

/** Name of the folder of a failing input. */
export const folderOf = (kind: string, seed: number): string =>
  join(KEPT, `${kind.replaceAll(/[^A-Za-z0-9]+/g, '-')}-${seed}`);

/** Writes a failing input, and what was said of it, where a person can look at it. */
export function keepFailure(
  kind: Kind,
  { seed, input, outcome }: Case,
  folder = folderOf(kind.name, seed),
): void {
  mkdirSync(folder, { recursive: true });
  if ('failed' in outcome) writeFileSync(join(folder, 'failure.txt'), `${outcome.failed}\n`);
  if (input === undefined) return;
  for (const [name, content] of Object.entries(kind.files(input))) writeFileSync(join(folder, name), content);
}
