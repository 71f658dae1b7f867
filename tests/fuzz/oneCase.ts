import fc from 'fast-check';
import type { Kind, Outcome } from './kind.ts';

/** One input of a kind, and what came of it. */
export interface Case {
  readonly seed: number;
  readonly input: unknown;
  /** Of the processor. */
  readonly ms: number;
  readonly outcome: Outcome | { readonly failed: string };
}

/** Time that the processor gave to this process, ms: whatever else the machine does is left out. */
export const processorTime = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** The input that belongs to a seed; the same seed gives the same input. */
export const inputOf = ({ inputs }: Kind, seed: number): unknown =>
  fc.sample(inputs, { seed, numRuns: 1 })[0];

/** Tries the input of a seed. Never throws. */
export async function oneCase(kind: Kind, seed: number): Promise<Case> {
  let input: unknown;
  let start = processorTime();
  try {
    input = inputOf(kind, seed);
    start = processorTime();
    const outcome = await kind.attempt(input);
    return { seed, input, ms: processorTime() - start, outcome };
  } catch (error) {
    const failed = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { seed, input, ms: processorTime() - start, outcome: { failed } };
  }
}

/** Seeds of a run, which follow from its own. */
export const seedsOf = (seed: number, kind: Kind): ((k: number) => number) => {
  let start = seed | 0;
  for (const letter of kind.name) start = (Math.imul(start, 31) + letter.charCodeAt(0)) | 0;
  return (k) => (Math.imul(start + k, 0x9e3779b1) >>> 1) | 0;
};
