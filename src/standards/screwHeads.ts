import { TableRefusal } from './tableRefusal.ts';

/** Kinds of head with their own shape of recess. */
export const headKinds = ['cap', 'pan', 'countersunk'] as const;
export type HeadKind = (typeof headKinds)[number];

/** The most a head may measure, mm. */
export interface ScrewHead {
  readonly diameter: number;
  readonly height: number;
  /** Cone of a countersunk head, degrees; null of a flat seat. */
  readonly cone: number | null;
  /** Diameter at which the cone would end in a sharp edge, mm: what the countersink in the part has to clear. Equal to
   *  `diameter` where there is no cone. */
  readonly sharp: number;
  readonly source: string;
}

const CAP = 'ISO 4762:2004, table 1, knurled head, from memory';
const PAN = 'ISO 7045:2011, table 1, from memory';
const COUNTERSUNK = 'ISO 7046-1:2011 and ISO 2009:2011, table 1, from memory';

/** Nominal size; greatest diameter (knurled) and height of cap heads. */
const CAPS: readonly (readonly [size: number, diameter: number, height: number])[] = [
  [1.6, 3.14, 1.6],
  [2, 3.98, 2],
  [2.5, 4.68, 2.5],
  [3, 5.68, 3],
  [4, 7.22, 4],
  [5, 8.72, 5],
  [6, 10.22, 6],
];

/** Nominal size; greatest diameter and height of pan heads. */
const PANS: readonly (readonly [size: number, diameter: number, height: number])[] = [
  [1.6, 3.2, 1.3],
  [2, 4, 1.6],
  [2.5, 5, 2.1],
  [3, 5.6, 2.4],
  [3.5, 7, 2.6],
  [4, 8, 3.1],
  [5, 9.5, 3.7],
  [6, 12, 4.6],
];

/** Nominal size; greatest sharp diameter, greatest real diameter and height of countersunk heads, 90 degrees. */
const COUNTERSINKS: readonly (readonly [size: number, sharp: number, diameter: number, height: number])[] = [
  [1.6, 3.6, 3, 1],
  [2, 4.4, 3.8, 1.2],
  [2.5, 5.5, 4.7, 1.5],
  [3, 6.3, 5.5, 1.65],
  [3.5, 8.2, 7.3, 2.35],
  [4, 9.4, 8.4, 2.7],
  [5, 10.4, 9.3, 2.7],
  [6, 12.6, 11.3, 3.3],
];

/** Largest head of a metric machine screw, mm. `nominal` one of M1.6, M2, M2.5, M3, M3.5 (no cap head), M4, M5, M6.
 *  Throws `screw_size_unknown`.
 *  @example screwHead('cap', 3) // => { diameter: 5.68, height: 3, cone: null, sharp: 5.68, source: ... }
 *  @example screwHead('countersunk', 3).sharp // => 6.3 */
export function screwHead(kind: HeadKind, nominal: number): ScrewHead {
  if (kind === 'countersunk') {
    const [, sharp, diameter, height] = rowOf(COUNTERSINKS, kind, nominal);
    return { diameter, height, cone: 90, sharp, source: COUNTERSUNK };
  }
  const [, diameter, height] = rowOf(kind === 'cap' ? CAPS : PANS, kind, nominal);
  return { diameter, height, cone: null, sharp: diameter, source: kind === 'cap' ? CAP : PAN };
}

function rowOf<Row extends readonly [number, ...number[]]>(
  rows: readonly Row[],
  kind: HeadKind,
  nominal: number,
): Row {
  const row = rows.find(([size]) => size === nominal);
  if (row === undefined)
    throw new TableRefusal(
      'screw_size_unknown',
      `${kind} head`,
      `${nominal} mm`,
      `one of M${rows.map(([size]) => size).join(', M')}`,
    );
  return row;
}
