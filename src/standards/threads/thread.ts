/** Where a thread belongs. `tapping`: the coarse pointed screws that cut or form their own thread. */
export type ThreadSystem = 'metric' | 'unified' | 'british-association' | 'tapping';

/** A range of sizes, mm, both ends included. */
export interface Range {
  readonly lo: number;
  readonly hi: number;
}

/** One thread a screw may have. Lengths in mm. */
export interface Thread {
  /** As on a drawing: "M5", "M5 x 0.5", "#4-40 UNC", "6BA", "ST2.9". */
  readonly designation: string;
  readonly system: ThreadSystem;
  readonly series: 'coarse' | 'fine' | 'only';
  /** Basic major diameter. */
  readonly nominal: number;
  readonly pitch: number;
  /** Angle between the flanks, degrees. */
  readonly angle: number;
  /** Basic pitch and minor diameter of the mating threads; null where the screw makes its own thread. */
  readonly basic: { readonly pitchDiameter: number; readonly minorDiameter: number } | null;
  /** What the standard lets the outside diameter of a real screw be: `usual` in the class screws are commonly made to,
   *  `any` over all its classes. */
  readonly outside: { readonly usual: Range; readonly any: Range };
  /** How often it is met in and around desktop machines, against 1 for the commonest. Common practice, no source. */
  readonly met: number;
  readonly source: string;
}

/** Millimetres to a tenth of a micrometre, so that a table shows no rounding noise.
 *  @example tidy(4.480384999) // => 4.4804 */
export const tidy = (mm: number): number => Math.round(mm * 1e4) / 1e4;
