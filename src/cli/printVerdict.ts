import type { MakeResult } from '../job/result.ts';
import { looksOf } from './terminal.ts';
import { verdict } from './verdict.ts';

/** Prints the verdict for a person. */
export function printVerdict(result: MakeResult, files: readonly string[]): void {
  for (const line of verdict(result, files, looksOf(process.stdout))) console.log(line);
}
