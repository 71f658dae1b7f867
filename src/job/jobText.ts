import type { JobFile } from './schema.ts';

/** A job as the text of its file: two blanks of indent, the readings of one thing on one line, as on a sheet.
 *  Only line ends are taken out, and no text in a job holds one (JSON escapes it), so every text stays as typed. */
export const jobText = (job: JobFile): string =>
  `${JSON.stringify(job, null, 2).replace(
    /\[\n\s*([^[\]{}]*?)\n\s*\]/g,
    (_, inner: string) => `[${inner.replace(/\n\s*/g, ' ')}]`,
  )}\n`;
