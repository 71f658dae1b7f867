import type { Remembered } from '../remembered/remembered.ts';
import type { ManifoldToplevel } from '../solid/kernel.ts';
import type { Prepared } from './prepare.ts';
import type { MakeResult } from './result.ts';

/** A job that went through the pipeline, and all it takes to draw it again. */
export interface MadeJob {
  readonly kernel: ManifoldToplevel;
  readonly prepared: Prepared;
  readonly result: MakeResult;
  /** What making it found, so that drawing it starts from there. */
  readonly known?: Remembered;
}
