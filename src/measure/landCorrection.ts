/** Diameter of a round hole read with flat inside jaws. Each land touches with its two corners, so the
 *  callipers read the chord sqrt(D^2 - w^2); this gives D = sqrt(m^2 + w^2). `reading` m above 0 and
 *  `landWidth` w, 0 or above, both mm; knife edges (w = 0) need no correction. Plane geometry.
 *  @example landCorrection(2.95804, 0.5) // => about 3.0 */
export function landCorrection(reading: number, landWidth: number): number {
  return Math.hypot(reading, landWidth);
}
