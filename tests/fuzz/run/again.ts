import '../../../src/arithmetic/index.ts';
import fc from 'fast-check';
import type { Kind } from '../kind.ts';
import { oneCase } from '../oneCase.ts';
import { folderOf, keepFailure } from './keepFailure.ts';

/** How long a smaller input with the same fate is looked for, ms. */
const PATIENCE = 60_000;

/** Tries one input again, says what comes of it, and where it fails keeps it beside the smallest that fails too. True where
 *  nothing is wrong. */
export async function again(kind: Kind, seed: number): Promise<boolean> {
  const done = await oneCase(kind, seed);
  const { outcome, ms } = done;
  if (!('failed' in outcome)) {
    console.log(
      `${kind.name} ${seed}: ${'made' in outcome ? outcome.made : `refused for ${[...new Set(outcome.refused)].join(', ')}`} (${ms.toFixed(0)} ms)`,
    );
    return true;
  }
  console.log(outcome.failed);
  keepFailure(kind, done);
  const found = await fc.check(
    fc.asyncProperty(kind.inputs, async (input) => void (await kind.attempt(input))),
    { seed, numRuns: 1, interruptAfterTimeLimit: PATIENCE },
  );
  const [smallest] = found.counterexample ?? [];
  if (smallest !== undefined)
    keepFailure(kind, { ...done, input: smallest }, `${folderOf(kind.name, seed)}/smallest`);
  console.log(`kept in ${folderOf(kind.name, seed)}`);
  return false;
}
