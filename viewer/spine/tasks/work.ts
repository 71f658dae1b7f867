import type { Family } from '../../../src/family/family.ts';
import { printOnBench } from '../../../src/job/inspection/currentTrial.ts';
import { make } from '../../../src/job/make.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import { sceneOf } from '../../../src/job/scene.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { Remembered } from '../../../src/remembered/remembered.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { Outcome } from '../answers.ts';
import { orRefused } from './refusals.ts';

/** Runs a job through the pipeline, and draws it from what that found. */
export const work = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  known?: Remembered,
): Outcome =>
  orRefused((): Outcome => {
    const start = performance.now();
    const { job, family } = parseJob(file, families);
    const prepared = prepare(job, family);
    const result = make(kernel, prepared, known);
    const took = performance.now() - start;
    return {
      ...{ kind: 'made', result, took },
      scene: sceneOf(kernel, prepared, known),
      onBench: printOnBench(prepared),
    };
  });
