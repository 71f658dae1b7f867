import { type FeltClearance, feltClearance } from '../fit/felt.ts';
import type { Prepared } from './prepare.ts';

/** What a ladder said of an interface, when it speaks of this printer, this material and this layer height. */
export interface FeltLadder extends FeltClearance {
  /** Group of interfaces it stepped, which share its doubt. */
  readonly group: string;
}

/** The verdict of the job's ladder on an interface, which the parts of a set share as they share its readings; undefined where there is none or it was printed otherwise. */
export function feltLadder({ job, printer, material }: Prepared, id: string): FeltLadder | undefined {
  for (const [group, record] of Object.entries(job.ladders ?? {})) {
    const same =
      record.printer === printer.name &&
      record.material === material.name &&
      Math.abs(record.layer - printer.layer) < 1e-9;
    const felt = same ? feltClearance(record, id) : undefined;
    if (felt) return { group, ...felt };
  }
  return undefined;
}
