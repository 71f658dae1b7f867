import example from '../../parts/stabiliser-clip/demo.job.json' with { type: 'json' };
import type { JobFile } from '../../src/job/schema.ts';

/** What the first visit shows: a finished job, editable at once. */
export const exampleJob = example as unknown as JobFile;
