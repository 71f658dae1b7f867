import { type FeltShift, feltShift } from '../fit/felt.ts';
import type { FeltVerdict } from '../fit/feltRecord.ts';
import { formatNumber } from '../units/index.ts';
import type { LadderRecord } from './schema.ts';

/** Coverage factor for about 95 %. */
const K = 2;
/** A shift this many standard uncertainties of the prior away is unlikely. */
const UNLIKELY = 2;

/** A verdict in words: "1, 2 too tight; 3 right; 4 too loose". */
export const spoken = ({ tight, right, loose, best }: FeltVerdict): string =>
  [
    ...(tight.length > 0 ? [`${tight.join(', ')} too tight`] : []),
    ...(right.length > 0 ? [`${right.join(', ')} right`] : []),
    ...(loose.length > 0 ? [`${loose.join(', ')} too loose`] : []),
    ...(best === undefined ? [] : [`${best} best`]),
  ].join('; ');

/** Whether a verdict is one that somebody can mean: no number called two things, none called tight that is looser than one
 *  called loose. */
export const canBeMeant = (record: LadderRecord, felt: FeltVerdict): boolean =>
  !feltShift({ ...record, felt }).contradictory;

/** What is allowed of a verdict that nobody can mean. */
export const MEANT = 'each number once, tight ones before loose ones: number 1 is the tightest';

/** What a verdict says of the room there is, as a sentence without its end. */
export function feltSentence({ shift, u }: FeltShift, { doubt }: Pick<LadderRecord, 'doubt'>): string {
  const size = formatNumber(Math.abs(shift), u);
  const more = Number(size) === 0 ? 'as much room as' : `${size} mm ${shift > 0 ? 'more' : 'less'} room than`;
  return `the print leaves ${more} expected, +- ${formatNumber(K * u, u)} mm (expected to +- ${formatNumber(K * doubt.u, u)} before)`;
}

/** What is doubtful about a verdict, each a sentence. `another` says what draws the next ladder: "another ladder". */
export function feltRemarks(
  felt: FeltVerdict,
  record: LadderRecord,
  shift: FeltShift,
  another: string,
): string[] {
  const count = record.rungs.length;
  const told = felt.tight.length + felt.right.length + felt.loose.length;
  const right = [...felt.right, ...(felt.best === undefined ? [] : [felt.best])];
  const atEnd = told === 0 && (felt.best === 1 || felt.best === count);
  return [
    ...(Math.abs(shift.shift) > UNLIKELY * record.doubt.u
      ? [
          `that is far from what was expected: was it this printer's strip, with number 1 at the tight end, and the right place on the machine?`,
        ]
      : []),
    ...(shift.inOrder
      ? []
      : ['the numbers are not in order, tight before right before loose; was one of them stringy or dirty?']),
    ...(atEnd || (told > 0 && right.length === 0)
      ? [`the best may lie beyond the ladder or between its numbers; ${another} about what was felt`]
      : []),
  ];
}
