/** Basic pitch and minor diameter of a 60 degree thread, ISO 68-1 and ASME B1.1: the same profile. `nominal`, the major
 *  diameter, and `pitch` in mm; H = pitch sqrt(3) / 2, pitch diameter = d - 3/4 H (0.6495 P), minor = d - 5/4 H
 *  (1.0825 P). Not rounded; ISO 724 prints three decimals.
 *  @example basicProfile(5, 0.8) // => { pitchDiameter: 4.4803..., minorDiameter: 4.1339... } */
export function basicProfile(
  nominal: number,
  pitch: number,
): { readonly pitchDiameter: number; readonly minorDiameter: number } {
  const height = (pitch * Math.sqrt(3)) / 2;
  return { pitchDiameter: nominal - 0.75 * height, minorDiameter: nominal - 1.25 * height };
}
