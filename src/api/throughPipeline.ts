import type { MadeJob } from '../job/madeJob.ts';
import { make } from '../job/make.ts';
import { refusingRefit } from '../job/refusingRefit.ts';
import { prepared } from './inner.ts';
import { kernel } from './kernel.ts';
import type { OpenJob } from './openedJob.ts';

/** Runs a job through the pipeline. Throws `Refused`. */
export async function throughPipeline(job: OpenJob): Promise<MadeJob> {
  const understood = prepared(job);
  const manifold = await kernel();
  return { kernel: manifold, prepared: understood, result: refusingRefit(() => make(manifold, understood)) };
}
