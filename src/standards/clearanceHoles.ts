import { TableRefusal } from './tableRefusal.ts';

export type HoleSeries = 'fine' | 'medium' | 'coarse';

/** Nominal diameter of the screw; holes of the fine, medium and coarse series, mm. ISO 273:1979, table; M1.6 to M10 without
 *  M1.8, M4.5 and M7 read in a public copy, the others from memory. */
const HOLES: readonly (readonly [nominal: number, fine: number, medium: number, coarse: number])[] = [
  [1, 1.1, 1.2, 1.3],
  [1.2, 1.3, 1.4, 1.5],
  [1.4, 1.5, 1.6, 1.8],
  [1.6, 1.7, 1.8, 2],
  [1.8, 2, 2.1, 2.2],
  [2, 2.2, 2.4, 2.6],
  [2.5, 2.7, 2.9, 3.1],
  [3, 3.2, 3.4, 3.6],
  [3.5, 3.7, 3.9, 4.2],
  [4, 4.3, 4.5, 4.8],
  [4.5, 4.8, 5, 5.3],
  [5, 5.3, 5.5, 5.8],
  [6, 6.4, 6.6, 7],
  [7, 7.4, 7.6, 8],
  [8, 8.4, 9, 10],
  [10, 10.5, 11, 12],
  [12, 13, 13.5, 14.5],
  [14, 15, 15.5, 16.5],
  [16, 17, 17.5, 18.5],
  [18, 19, 20, 21],
  [20, 21, 22, 24],
];

/** Hole that a metric screw passes freely. `nominal` in mm, one of the sizes of ISO 273 from M1 to M20; returns mm.
 *  Tolerances: fine H12, medium H13, coarse H14. ISO 273:1979. Throws `screw_size_unknown`.
 *  @example clearanceHole(3) // => 3.4
 *  @example clearanceHole(3, 'coarse') // => 3.6 */
export function clearanceHole(nominal: number, series: HoleSeries = 'medium'): number {
  const row = HOLES.find(([size]) => size === nominal);
  if (row === undefined)
    throw new TableRefusal(
      'screw_size_unknown',
      'ISO 273',
      `${nominal} mm`,
      `one of M${HOLES.map(([size]) => size).join(', M')}`,
    );
  return ofSeries(row, series);
}

/** Clearance holes of a screw, mm, and where they come from. */
export interface ClearanceHoles extends Readonly<Record<HoleSeries, number>> {
  readonly source: string;
}

/** Clearance holes for any outside diameter, mm, above 0 and at most 20: those of ISO 273 where it has the size, otherwise
 *  the diameter and the gap that ISO 273 gives the next larger screw, so that none is tighter than its neighbours (common
 *  practice, no source). Throws `screw_size_unknown`.
 *  @example clearanceHolesFor(3) // => { fine: 3.2, medium: 3.4, coarse: 3.6, source: 'ISO 273' }
 *  @example clearanceHolesFor(2.8448).medium // => 3.2448... */
export function clearanceHolesFor(diameter: number): ClearanceHoles {
  const row = diameter > 0 ? HOLES.find(([size]) => size >= diameter) : undefined;
  if (row === undefined)
    throw new TableRefusal(
      'screw_size_unknown',
      'clearance hole',
      `${diameter} mm`,
      'a screw above 0 and at most 20 mm',
    );
  const more = diameter - row[0];
  const hole = (series: HoleSeries): number => ofSeries(row, series) + more;
  return {
    fine: hole('fine'),
    medium: hole('medium'),
    coarse: hole('coarse'),
    source: more === 0 ? 'ISO 273' : `not in ISO 273: with the gap of M${row[0]}, common practice, no source`,
  };
}

function ofSeries([, fine, medium, coarse]: (typeof HOLES)[number], series: HoleSeries): number {
  return { fine, medium, coarse }[series];
}
