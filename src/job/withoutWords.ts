import type { Prepared } from './prepare.ts';
import type { Job } from './schema.ts';

const WORDS: ReadonlySet<string> = new Set<keyof Job>(['title', 'quantity', 'author', 'licence', 'note']);

/** A job without what is only said about it, and without how many are made: sizes, fits and chances never hang on that. */
export const withoutWords = ({ job, ...prepared }: Prepared) => ({
  ...prepared,
  job: Object.fromEntries(Object.entries(job).filter(([field]) => !WORDS.has(field))),
});
