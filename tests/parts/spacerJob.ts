import { readFileSync } from 'node:fs';
import type { PlainJob } from '../job/demo.ts';

const text = readFileSync(new URL('../../parts/spacer/demo.job.json', import.meta.url), 'utf8');

/** The demo job with these choices, changed; a fresh copy each time. */
export function spacerJob(
  choices: Readonly<Record<string, string>> = {},
  change: (job: PlainJob) => void = () => undefined,
): PlainJob {
  const job = { sizes: {}, fits: {}, ...JSON.parse(text) } as PlainJob;
  Object.assign(job.choices, choices);
  change(job);
  return job;
}
