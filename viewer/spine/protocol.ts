import type { Problem } from '../../src/job/problem.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { ScenePart } from '../../src/job/scene.ts';
import type { JobFile } from '../../src/job/schema.ts';

/** What became of one version of the job: made, or refused with every problem. Plain data, as it crosses to the page. */
export type Outcome = Made | RefusedJob;

export interface Made {
  readonly kind: 'made';
  readonly result: MakeResult;
  readonly scene: readonly ScenePart[];
  /** Time the pipeline itself took, ms. */
  readonly took: number;
}

export interface RefusedJob {
  readonly kind: 'refused';
  readonly problems: readonly Problem[];
}

/** What the worker does for the page. Every method takes plain data and gives plain data; one that throws has met an
 *  internal problem, for what is wrong with a job comes back as problems. */
export interface Spine {
  /** Runs the pipeline. */
  work(job: JobFile): Promise<Outcome>;
}
