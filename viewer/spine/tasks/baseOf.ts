import { fileBase } from '../../../src/job/fileBase.ts';
import type { JobFile } from '../../../src/job/schema.ts';

/** What the names of a job's files begin with: what they would if it lay in a file of its title. */
export const baseOf = ({ title, family }: Pick<JobFile, 'title' | 'family'>): string =>
  fileBase(`${fileBase(title ?? '', family)}.job.json`, family);
