/** Further than across the largest bed there is, mm; no outline can be moved by the infinity of a level overhang. */
const FURTHEST = 5000;

/** How far a layer may reach past the one below and print clean: `rise` from the middle of the one to that of the other, mm,
 *  `overhang` in degrees from the vertical, 20 to 90. mm.
 *  @example cleanReach(0.2, 45) // => 0.2 */
export const cleanReach = (rise: number, overhang: number): number =>
  Math.min(FURTHEST, rise * Math.tan((overhang * Math.PI) / 180));
