import { licenceOf } from '../../job/licence.ts';
import type { Problem } from '../../job/problem.ts';
import type { JobFile } from '../../job/schema.ts';
import type { Asker } from '../measure/askLines.ts';
import { RefusedFile } from '../refusedFile.ts';
import { type Looks, wrapped } from '../terminal.ts';

/** Who passes a part on and on what terms, as a job remembers it: an empty licence means that somebody was asked and
 *  said nothing, so that nobody is asked again. */
export interface Terms {
  readonly author?: string | undefined;
  readonly licence?: string | undefined;
}

const LONGEST = 200;

/** Terms by the options and the job, licences in the letter case of the SPDX list. Empty options take back what was said.
 *  Throws `RefusedFile` with all that is wrong: options blame the command line, the rest the job. */
export function termsTold(path: string, job: Pick<JobFile, 'author' | 'licence'>, told: Terms): Terms {
  const problems: Problem[] = [];
  const licence = told.licence ?? job.licence;
  const understood = licence === undefined || licence.trim() === '' ? undefined : licenceOf(licence);
  if (understood !== undefined && 'code' in understood)
    problems.push(told.licence === undefined ? understood : { ...understood, field: '--licence' });
  const author = told.author?.trim();
  if (author !== undefined && author.length > LONGEST)
    problems.push({
      code: 'author_too_long',
      field: '--author',
      value: `${author.length} characters`,
      allowed: `at most ${LONGEST} characters`,
    });
  if (problems.length > 0) throw new RefusedFile(path, problems);
  return {
    author: (author ?? job.author) || undefined,
    licence: understood && 'licence' in understood ? understood.licence : licence?.trim(),
  };
}

interface Interview {
  readonly asker: Pick<Asker, 'ask'>;
  readonly looks: Looks;
  readonly say: (line: string) => void;
}

/** Asks for what the terms do not say yet. Enter alone, or the end of the lines, skips; a licence nobody knows is asked
 *  again. */
export async function askTerms(terms: Terms, { asker, looks, say }: Interview): Promise<Terms> {
  const tell = (text: string): void => {
    for (const line of wrapped(text, looks.width)) say(line);
  };
  tell('Whoever finds the bundle may like to know whose it is. Enter skips; you are asked this once.');
  const author = terms.author ?? (await asker.ask('author > '))?.trim().slice(0, LONGEST);
  tell(
    'licence: on what terms others may use it, such as CC-BY-4.0 (name you), CC-BY-SA-4.0 (and share alike), CC0-1.0 (as they like)',
  );
  for (;;) {
    const text = (await asker.ask('licence > '))?.trim() ?? '';
    const read = text === '' ? { licence: '' } : licenceOf(text);
    if ('licence' in read) return { author: author || undefined, licence: read.licence };
    const lines = wrapped(`${read.value} ${read.reason}; allowed: ${read.allowed}`, looks.width - 4);
    lines.forEach((line, k) => {
      say(`  ${k === 0 ? looks.paint.red('X') : ' '} ${line}`);
    });
  }
}
