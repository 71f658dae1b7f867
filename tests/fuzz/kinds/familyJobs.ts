import fc from 'fast-check';
import { families } from '../../../parts/index.ts';
import type { Family } from '../../../src/family/family.ts';
import { readJob } from '../../../src/job/readJob.ts';
import { demoJobs, knownPrinters } from '../corpus.ts';
import { type Kind, kind } from '../kind.ts';
import { type AnyJob, anyJob } from '../random/anyJob.ts';
import { anyHistory, withHistory } from '../random/history.ts';
import { madeInMemory } from './made.ts';

const read = (job: unknown) => readJob(JSON.stringify(job), families);

/** Jobs of a family over the whole of what it declares, with what came before of some. */
export function jobsOf(family: Family): fc.Arbitrary<AnyJob> {
  const demo = demoJobs().find((each) => each.family === family.id)!;
  return fc
    .tuple(anyJob(family, read, { author: demo.author ?? 'M. Okafor' }, knownPrinters()), anyHistory)
    .map(([job, history]) => withHistory(job, history, read));
}

/** What else is asked for beside the STL; pages and drawings take their time. */
const others = fc.oneof(
  { weight: 6, arbitrary: fc.constant([]) },
  { weight: 2, arbitrary: fc.constant(['3mf' as const]) },
  { weight: 1, arbitrary: fc.constant(['drawing' as const, 'report' as const]) },
);

/** Every family makes its random jobs. */
export const familyJobs: readonly Kind[] = families.map((family) =>
  kind({
    name: `make ${family.id}`,
    few: 1,
    inputs: fc.record({ job: jobsOf(family), ascii: fc.boolean(), with: others }),
    attempt: async ({ job, ...wanted }) => madeInMemory(() => read(job), { ...wanted, ours: true }),
    files: ({ job }) => ({ 'any.job.json': JSON.stringify(job, null, 2) }),
  }),
);
