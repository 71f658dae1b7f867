import { type FeltClearance, feltClearance } from '../fit/felt.ts';
import type { Contributor } from '../measure/types.ts';
import type { Prepared } from './prepare.ts';
import type { LadderRecord } from './schema.ts';

/** What a ladder said of an interface, when it speaks of this printer, this material and this layer height. */
export interface FeltLadder extends FeltClearance {
  /** Group of interfaces it stepped, which share its doubt. */
  readonly group: string;
  readonly record: LadderRecord;
}

/** The verdict of the job's ladder on an interface, which the parts of a set share as they share its readings; undefined where there is none or it was printed otherwise. */
export function feltLadder(prepared: Prepared, id: string): FeltLadder | undefined {
  for (const [group, record] of Object.entries(prepared.job.ladders ?? {})) {
    const felt = printedAlike(prepared, record) ? feltClearance(record, id) : undefined;
    if (felt) return { group, record, ...felt };
  }
  return undefined;
}

/** Whether something was printed on this printer, of this material, in layers of this height. */
export const printedAlike = (
  { printer, material }: Pick<Prepared, 'printer' | 'material'>,
  record: Pick<LadderRecord, 'printer' | 'material' | 'layer'>,
): boolean =>
  record.printer === printer.name &&
  record.material === material.name &&
  Math.abs(record.layer - printer.layer) < 1e-9;

/** What was felt, as the one cause of doubt that the interfaces of its ladder share. */
export const feltCause = ({ group, u }: FeltLadder): Contributor => ({
  ...{ id: `ladder:${group}`, label: `ladder of the ${group}`, u },
  ...({ distribution: 'normal', dof: Infinity } as const),
});
