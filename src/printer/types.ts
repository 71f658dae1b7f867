/** A fitted or assumed number with its standard uncertainty. */
export interface Known {
  readonly value: number;
  readonly u: number;
}

/** How one printer prints one material: what it was told against what came off. Lengths in mm.
 *
 *  Outer size:  printed = drawn * scale + 2 * outerGrowth
 *  Bore, slot:  printed = drawn * scale - 2 * boreShrink - boreCurvature / D
 *  Heights come in whole layers. */
export interface PrinterProfile {
  readonly fettlePrinter: 1;
  readonly name: string;
  /** ISO date of the coupon this rests on; null while nobody has measured one. */
  readonly calibrated: string | null;
  readonly bed: { readonly x: number; readonly y: number; readonly z: number };
  readonly lineWidth: number;
  readonly layer: number;
  readonly firstLayer: number;
  /** Printed length over drawn length, about 1, by bed axis. */
  readonly scale: { readonly x: Known; readonly y: Known; readonly z: Known };
  /** An outer face stands this much further out, mm a side. */
  readonly outerGrowth: Known;
  /** The wall of a bore or slot stands this much further in, mm a side. */
  readonly boreShrink: Known;
  /** c in the term c/D by which small bores lose more, mm^2. */
  readonly boreCurvature: Known;
  /** The first layer spreads this much further than those above, mm a side. */
  readonly firstLayerSpread: Known;
  /** Standard deviation from print to print of one size, mm. */
  readonly repeatability: number;
  /** Steepest overhang printed clean without support, degrees from the vertical. */
  readonly overhang: number;
  /** Longest bridge printed clean, mm. */
  readonly bridge: number;
}
