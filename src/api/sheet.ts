import { sheetInput } from '../job/sheet.ts';
import { sheetPage } from '../output/sheet/index.ts';
import { familyOf } from './familyOf.ts';
import { innerOf } from './inner.ts';
import { kernel } from './kernel.ts';
import type { OpenJob } from './openedJob.ts';

/** The page that says what to measure, as HTML to be printed at 100 %: of a family by its id with typical sizes, or of a job
 *  with its choices and what it has read so far. Throws `Refused` for a family there is not. */
export async function sheet(subject: string | OpenJob): Promise<string> {
  const manifold = await kernel();
  if (typeof subject === 'string') return sheetPage(sheetInput(manifold, familyOf(subject)));
  const { family, job } = innerOf(subject);
  return sheetPage(sheetInput(manifold, family, job));
}
