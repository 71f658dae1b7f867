import { sentence } from '../../job/problem.ts';
import { exitCode } from '../exitCode.ts';
import { internalProblem } from '../internalProblem.ts';
import { oneLine } from '../oneLine.ts';
import { looksOf } from '../terminal.ts';
import { batchObject } from './batchObject.ts';
import { batchSummary } from './batchSummary.ts';
import { batchText } from './batchText.ts';
import type { Outcome } from './outcome.ts';

/** Says what became of several jobs: problems one a line on stderr, as for a single job, the rest as a table or as JSON. Gives
 *  the exit code, the worst of them. */
export function printBatch(outcomes: readonly Outcome[], out: string, json: boolean): number {
  // What a folder refuses, it refuses for every job in the same words.
  for (const line of new Set(outcomes.flatMap(complaints))) console.error(oneLine(line));
  if (json) process.stdout.write(`${JSON.stringify(batchObject(outcomes), null, 2)}\n`);
  else for (const line of batchText(outcomes, out, looksOf(process.stdout))) console.log(line);
  const { broke, refused, failing } = batchSummary(outcomes);
  if (broke > 0) return exitCode.internal;
  if (refused > 0) return exitCode.refused;
  return failing > 0 ? exitCode.failed : exitCode.done;
}

function complaints(outcome: Outcome): readonly string[] {
  if (outcome.how === 'refused') return outcome.problems.map((problem) => sentence(outcome.file, problem));
  return outcome.how === 'broke' ? [internalProblem(outcome.path, outcome.why)] : [];
}
