import type { JobFile } from '../../src/job/schema.ts';

/** A job with a text of its title block as typed; an empty one is left out, for that is how a job says nothing. The very
 *  same job where nothing changes. */
export function withText(job: JobFile, field: 'title' | 'author' | 'licence', text: string): JobFile {
  if ((job[field] ?? '') === text) return job;
  const { [field]: _, ...others } = job;
  return text.trim() === '' ? others : { ...others, [field]: text };
}
