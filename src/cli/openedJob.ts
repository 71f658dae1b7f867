import type { Family } from '../family/family.ts';
import type { Job } from '../job/schema.ts';

/** A job file, read and of the right form; nothing is said yet about its readings. */
export interface OpenJob {
  readonly job: Job;
  readonly family: Family;
  /** Files that went into it, as paths: none of them may be written over. */
  readonly sources: readonly string[];
}
