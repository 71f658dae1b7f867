import { defaultCallipers } from '../measure/index.ts';
import type { PrinterProfile } from '../printer/types.ts';
import type { JobFile } from './schema.ts';

/** What another person makes the job their own with. */
interface Own {
  /** Their printer profile, and the name by which it lies beside the job. */
  readonly printer?: { readonly name: string; readonly profile: PrinterProfile } | undefined;
  /** Whether they measure a machine of their own. */
  readonly fresh?: boolean;
}

/** What was left out of a job, or changed, because it speaks of somebody else's printer, machine or callipers. */
export type LeftOut = 'ladders' | 'trials' | 'readings' | 'callipers';

/** A job of another person as one's own: for one's own printer, with readings still to be taken if wanted. What was felt of
 *  prints goes with the printer it was felt on and the machine it was tried on; and callipers that both call the same are
 *  two pairs all the same, whose errors do not cancel. The job given is not changed. */
export function takenOver(
  file: JobFile,
  { printer, fresh = false }: Own,
): { readonly file: JobFile; readonly without: readonly LeftOut[] } {
  const without: LeftOut[] = [];
  const own = { ...file, ...(printer && { printer: printer.name }) };
  const leave = (what: 'ladders' | 'trials'): void => {
    if (own[what] !== undefined) without.push(what);
    delete own[what];
  };
  if (printer !== undefined || fresh) {
    leave('ladders');
    leave('trials');
  }
  const callipers = file.callipers?.name ?? defaultCallipers.name;
  if (fresh) {
    if (Object.keys(file.readings ?? {}).length > 0) without.push('readings');
    own.readings = {};
    delete own.callipers;
  } else if (printer?.profile.calibration?.callipers === callipers) {
    own.callipers = { ...file.callipers, name: `${callipers.slice(0, 60)} (first owner)` };
    without.push('callipers');
  }
  return { file: own, without };
}
