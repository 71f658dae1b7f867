import type { Contour } from '../../solid/vector.ts';

/** Plan of the plate, seen from above, mm: a square corner with an arm along x and one along y, like a try square. Nothing
 *  in it hangs on the printer, so that a form fits every coupon. */
export const ground = {
  /** From the outer corner to the end of either arm. */
  reach: 76,
  /** Width of the arms. */
  arm: 12,
  /** Side of the square corner. */
  corner: 25.6,
  /** x + y along the two flats that face each other across the corner. */
  outerFlat: 3.6,
  innerFlat: 47.3,
  /** Legs of the flats at the far ends of the arms. */
  endFlat: 3.2,
  /** Along x, between these the arm stands on a tab of one layer that sticks out by `ledge`, all edge and nothing over it. */
  notch: [30.6, 36.2],
  tab: [31.2, 35.6],
  ledge: 1,
} as const;

const { reach, arm, corner, outerFlat, innerFlat, endFlat } = ground;

/** The plate from above, counter-clockwise. */
export const plateOutline: Contour = [
  [outerFlat, 0],
  [reach - endFlat, 0],
  [reach, endFlat],
  [reach, arm],
  [corner, arm],
  [corner, innerFlat - corner],
  [innerFlat - corner, corner],
  [arm, corner],
  [arm, reach],
  [endFlat, reach],
  [0, reach - endFlat],
  [0, outerFlat],
];
