import { formatNumber } from '../../units/index.ts';
import { senseOf } from '../clearanceCauses.ts';
import { printReadings } from '../inspection/printReading.ts';
import { printSizes } from '../inspection/printSize.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { partOf, type TrialKnowledge } from './belief.ts';
import { causeRow } from './causeRow.ts';
import type { TriedMeeting } from './sights.ts';

/** A part of the shift below this is not spoken of, mm, nor one below this share of the larger part: it would read as 0.00
 *  or take the eye off the cause. */
const SPOKEN = { printer: 0.01, machine: 0.005 } as const;
const SHARE = 1 / 3;

/** Why a size is drawn otherwise, in the words of a bench: what was felt and read of it, and whose doing that is. No full
 *  stop. */
export function because(
  prepared: Prepared,
  records: readonly TrialRecord[],
  { belief }: Pick<TrialKnowledge, 'belief'>,
  meeting: TriedMeeting,
): string {
  const printer = partOf(belief, causeRow(meeting.print)).mean;
  const machine = partOf(belief, causeRow(meeting.machine)).mean;
  const most = Math.max(Math.abs(printer), Math.abs(machine));
  const told = (part: number, least: number) => Math.abs(part) >= least && Math.abs(part) >= SHARE * most;
  const sense = senseOf(meeting.one.kind);
  const blame = [
    ...(told(printer, SPOKEN.printer) ? [printerDid(meeting, sense * printer)] : []),
    ...(told(machine, SPOKEN.machine) ? [machineIs(-sense * machine)] : []),
  ];
  const whose = blame.length === 0 ? 'printer and machine together' : blame.join('; ');
  return `${seenOf(prepared, records, meeting)}: ${whose}`;
}

/** What the last trial that says anything of an interface says of it. */
function seenOf(prepared: Prepared, records: readonly TrialRecord[], meeting: TriedMeeting): string {
  for (const record of [...records].reverse()) {
    const word = Object.hasOwn(record.felt ?? {}, meeting.id) ? record.felt?.[meeting.id] : undefined;
    const readings = printReadings([meeting], record);
    const read = printSizes(prepared, record, readings, record.inspected?.readings ?? {})[meeting.id];
    const off = read && read.value - record.sizes[meeting.id]!.predicted;
    const said = [
      ...(word === undefined ? [] : [`felt ${word}`]),
      ...(off === undefined ? [] : [readAs(off)]),
    ];
    if (said.length === 0) continue;
    // A size that was right itself moves with the others of its printer.
    return (
      said.join(' and ') + (word === 'right' && off === undefined ? ', and learnt from other sizes' : '')
    );
  }
  return 'learnt from other sizes';
}

const readAs = (off: number): string =>
  Math.abs(off) < 0.005
    ? 'read as was expected'
    : `read ${mm(off)} ${off > 0 ? 'larger' : 'smaller'} than expected`;

/** What the printer does to a size, by how much the print is larger than its profile said, mm. */
function printerDid({ one: { kind, centres } }: TriedMeeting, larger: number): string {
  const more = larger > 0;
  const side = mm(larger / 2);
  switch (kind) {
    case 'post':
    case 'rib':
      return `the printer prints outer faces ${side} a side ${more ? 'larger' : 'smaller'} than its profile said`;
    case 'bore':
    case 'slot':
      return `the printer prints hollows ${side} a side ${more ? 'wider' : 'narrower'} than its profile said`;
    case 'step':
      return `the printer prints this ${centres ? 'distance' : 'size'} ${mm(larger)} ${more ? 'longer' : 'shorter'} than its profile said`;
  }
}

const machineIs = (larger: number): string =>
  `the machine is ${mm(larger)} ${larger > 0 ? 'larger' : 'smaller'} there than it was read`;

const mm = (length: number): string => formatNumber(Math.abs(length));
