import { profileHash } from '../../src/job/profileHash.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

/** The profiles between which a job went when a print taught it, or when that was taken back; null where its profile stayed,
 *  or changed for another reason. The same profile in the drawer goes along.
 *  @example lessonBetween(before, after the print was put on record) // => { from, to } */
export function lessonBetween(
  before: JobFile,
  after: JobFile,
): { readonly from: PrinterProfile; readonly to: PrinterProfile } | null {
  const [from, to] = [before.printer, after.printer];
  if (from === to || typeof from !== 'object' || typeof to !== 'object') return null;
  const [was, is] = [profileHash(from), profileHash(to)];
  const taught = [...(before.trials ?? []), ...(after.trials ?? [])].some(({ learnt }) => {
    if (learnt === undefined) return false;
    const ends = [profileHash(learnt.before), learnt.after];
    return ends.includes(was) && ends.includes(is) && was !== is;
  });
  return taught ? { from, to } : null;
}
