import { TableRefusal } from './tableRefusal.ts';

/** Fine, medium, coarse, very coarse. */
export const toleranceClasses = ['f', 'm', 'c', 'v'] as const;
export type ToleranceClass = (typeof toleranceClasses)[number];

/** One table: upper ends of its ranges, and by class plus or minus so much; null where the standard sets nothing. */
interface Table {
  readonly upTo: readonly number[];
  readonly plusMinus: Readonly<Record<ToleranceClass, readonly (number | null)[]>>;
}

/** Shortest length with a general tolerance, mm: below, each size is given its own. ISO 2768-1:1989, table 1, note 1. */
const SHORTEST = 0.5;

/** ISO 2768-1:1989, table 1, mm; read in a public copy. On old drawings still; ISO 22081:2021 has taken its place in part.
 *  Copies that print 0.15 and 0.2 for class c up to 6 mm carry the figures of an older national standard. */
const LINEAR: Table = {
  upTo: [3, 6, 30, 120, 400, 1000, 2000, 4000],
  plusMinus: {
    f: [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, null],
    m: [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2],
    c: [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4],
    v: [null, 0.5, 1, 1.5, 2.5, 4, 6, 8],
  },
};

/** ISO 2768-1:1989, table 2, mm; read in a public copy. */
const EDGES: Table = {
  upTo: [3, 6, Number.POSITIVE_INFINITY],
  plusMinus: { f: [0.2, 0.5, 1], m: [0.2, 0.5, 1], c: [0.4, 1, 2], v: [0.4, 1, 2] },
};

/** ISO 2768-1:1989, table 3, minutes of arc by the shorter leg in mm; from memory. */
const ANGLES: Table = {
  upTo: [10, 50, 120, 400, Number.POSITIVE_INFINITY],
  plusMinus: {
    f: [60, 30, 20, 10, 5],
    m: [60, 30, 20, 10, 5],
    c: [90, 60, 30, 15, 10],
    v: [180, 120, 60, 30, 20],
  },
};

/** Plus or minus how much a length without a tolerance of its own may be off, mm. `length` from 0.5 to 4000 mm.
 *  ISO 2768-1:1989. Throws `size_outside_table`, also where the class sets nothing (f over 2000, v up to 3 mm).
 *  @example linearTolerance('m', 25) // => 0.2 */
export const linearTolerance = (grade: ToleranceClass, length: number): number =>
  lookUp(LINEAR, grade, length, SHORTEST);

/** The same of an outer radius or the height of a chamfer, mm, from 0.5 mm. ISO 2768-1:1989.
 *  @example edgeTolerance('c', 2) // => 0.4 */
export const edgeTolerance = (grade: ToleranceClass, size: number): number =>
  lookUp(EDGES, grade, size, SHORTEST);

/** The same of an angle, degrees, by the length of its shorter leg, mm, above 0. ISO 2768-1:1989.
 *  @example angleTolerance('m', 25) // => 0.5 */
export const angleTolerance = (grade: ToleranceClass, shorterLeg: number): number =>
  lookUp(ANGLES, grade, shorterLeg, Number.MIN_VALUE) / 60;

function lookUp({ upTo, plusMinus }: Table, grade: ToleranceClass, size: number, from: number): number {
  const row = plusMinus[grade];
  const found = size >= from ? row[upTo.findIndex((end) => size <= end)] : undefined;
  if (found !== undefined && found !== null) return found;
  const least = row[0] === null ? `above ${upTo[0]}` : from < SHORTEST ? 'above 0' : `from ${from}`;
  const most = upTo[row.findLastIndex((value) => value !== null)]!;
  throw new TableRefusal(
    'size_outside_table',
    `ISO 2768-${grade}`,
    `${size} mm`,
    `a size ${least}${Number.isFinite(most) ? ` to ${most}` : ''} mm`,
  );
}
