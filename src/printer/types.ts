/** A fitted or assumed number with its standard uncertainty. */
export interface Known {
  readonly value: number;
  readonly u: number;
}

/** What a coupon can tell about a printer: the fields of the profile that are fitted, in the order of every vector and
 *  matrix about them. A dot names a field of a field. */
export const PARAMETERS = [
  'scale.x',
  'scale.y',
  'scale.z',
  'outerGrowth',
  'boreShrink',
  'boreCurvature',
  'firstLayerSpread',
  'firstLayerError',
  'levelSag',
  'skew',
] as const;

export type Parameter = (typeof PARAMETERS)[number];

/** A cause of doubt that the coupon's readings share with readings of the machine taken with the same callipers. */
export interface SharedCause {
  /** Id of the contributor in `Dimension.contributors`: `calliper:scale`, `calliper:inside` ... */
  readonly id: string;
  readonly label: string;
  /** Shift of each parameter, in the order of `PARAMETERS`, per one standard uncertainty of the cause. */
  readonly shift: readonly number[];
}

/** What a measured coupon says beyond the values themselves: how their doubts hang together. */
export interface Calibration {
  /** Covariance of the parameters, in the order of `PARAMETERS`, without the shared causes. */
  readonly covariance: readonly (readonly number[])[];
  readonly shared: readonly SharedCause[];
  /** Callipers the coupon was measured with, by the name their owner gives them. */
  readonly callipers: string;
  /** Degrees of freedom of the repeatability. */
  readonly dof: number;
  /** The coupon's readings as typed, by feature. */
  readonly readings: Readonly<Record<string, readonly (string | number)[]>>;
}

/** How one printer prints one material: what it was told against what came off. Lengths in mm.
 *
 *  Outer size:  printed = drawn * scale + 2 * outerGrowth
 *  Bore, slot:  printed = drawn * scale - 2 * boreShrink - boreCurvature / D
 *  In the first layer every wall stands firstLayerSpread further into every void.
 *  Heights come in whole layers, times scale.z, plus firstLayerError when they stand on the bed; the roof of a level
 *  hollow hangs levelSag lower. Skew moves a point by skew * y along x. */
export interface PrinterProfile {
  readonly fettlePrinter: 2;
  readonly name: string;
  /** Material it is known for; null when nobody said. */
  readonly material: string | null;
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
  /** The first layer comes out this much thicker than asked, mm. */
  readonly firstLayerError: Known;
  /** The roof of a hollow that lies level hangs this much lower, mm. */
  readonly levelSag: Known;
  /** Tangent of the angle by which y leans towards x. */
  readonly skew: Known;
  /** Standard deviation from print to print of one size, mm. */
  readonly repeatability: number;
  /** Steepest overhang printed clean without support, degrees from the vertical. */
  readonly overhang: number;
  /** Longest bridge printed clean, mm. */
  readonly bridge: number;
  /** Absent while `calibrated` is null, and where the doubts were stated one by one. */
  readonly calibration?: Calibration | undefined;
}
