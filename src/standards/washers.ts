import { TableRefusal } from './tableRefusal.ts';

/** A plain washer, mm. */
export interface Washer {
  /** Nominal clear hole. */
  readonly hole: number;
  /** Nominal outside diameter, its greatest. */
  readonly outside: number;
  readonly thickness: { readonly nominal: number; readonly greatest: number };
  readonly source: string;
}

const SOURCE = 'ISO 7089:2000, table 1, from memory';

/** Nominal size of the screw; hole, outside diameter, nominal and greatest thickness. */
const WASHERS: readonly (readonly [
  size: number,
  hole: number,
  outside: number,
  nominal: number,
  greatest: number,
])[] = [
  [1.6, 1.7, 4, 0.3, 0.35],
  [2, 2.2, 5, 0.3, 0.35],
  [2.5, 2.7, 6, 0.5, 0.55],
  [3, 3.2, 7, 0.5, 0.55],
  [3.5, 3.7, 8, 0.5, 0.55],
  [4, 4.3, 9, 0.8, 0.9],
  [5, 5.3, 10, 1, 1.1],
  [6, 6.4, 12, 1.6, 1.8],
];

/** Plain washer of the normal series, product grade A, for a metric screw M1.6 to M6. Throws `screw_size_unknown`.
 *  @example washer(3).outside // => 7 */
export function washer(nominal: number): Washer {
  const row = WASHERS.find(([size]) => size === nominal);
  if (row === undefined)
    throw new TableRefusal(
      'screw_size_unknown',
      'ISO 7089',
      `${nominal} mm`,
      `one of M${WASHERS.map(([size]) => size).join(', M')}`,
    );
  const [, hole, outside, thickness, greatest] = row;
  return { hole, outside, thickness: { nominal: thickness, greatest }, source: SOURCE };
}
