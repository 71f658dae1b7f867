/** Which part of the callipers took the reading, or that no callipers did.
 *  `entered`: taken from a drawing or chosen; known as well as its own stated uncertainty. */
export type Jaw = 'outside' | 'inside' | 'depth' | 'entered';

/** The pair of callipers on the bench. Lengths in mm. */
export interface Callipers {
  /** What their owner calls them: two sets of readings under one name were taken with one pair, and err together. */
  readonly name: string;
  /** What kind of scale it has. */
  readonly scale: 'digital' | 'dial' | 'vernier';
  /** Smallest step of the display or vernier, mm, above 0; decides the column of DIN 862. */
  readonly resolution: number;
  /** What the closed jaws show, mm; subtracted from every reading. */
  readonly zero: number;
  /** Width of the flat land on the inside jaws, mm, 0 for knife edges. */
  readonly landWidth: number;
  /** Standard uncertainty of `landWidth`, mm, 0 or above; absent: the land was measured, 0. */
  readonly landWidthUncertainty?: number;
  /** Half-width of the permissible error, mm; absent: DIN 862 by resolution, jaw and length. */
  readonly permissibleError?: number;
  /** Prior repeatability s0 of one reading in this hand, mm. */
  readonly repeatability: number;
  /** How many degrees of freedom that prior is worth, nu0, 0 or above; absent: 10. */
  readonly priorDegreesOfFreedom?: number;
}

/** Shape of the distribution an error is drawn from. */
export type Distribution = 'normal' | 'rectangular' | 'student';

/** One independent cause of doubt. `id` is shared by everything it disturbs together. */
export interface Contributor {
  /** `reading:socketWidth`, `calliper:scale`, `printer:outerGrowth` ... */
  readonly id: string;
  /** In the words of a bench: "socket width", "callipers, inside jaws", "outer growth of the printer". */
  readonly label: string;
  /** Standard uncertainty, in the unit of the thing disturbed, 0 or above. */
  readonly u: number;
  readonly distribution: Distribution;
  /** Degrees of freedom; Infinity for Type B. */
  readonly dof: number;
  /** Standard deviation of a Student error where more is known of it than its own few readings tell, 0 or above; absent:
   *  `u` widened by sqrt(dof / (dof - 2)). */
  readonly deviation?: number;
}

/** Something the person should hear about a reading. Data first: the sentence is made at the edge. */
export interface Remark {
  readonly kind: 'outlier' | 'unit-slip' | 'implausible' | 'spread' | 'nominal';
  /** Index of the reading concerned, from 0; absent when it is the whole set. */
  readonly index?: number;
  readonly value: number;
  /** What it was held against: the other readings' mean, the range, the likely nominal. */
  readonly expected: string;
  readonly sentence: string;
}

/** A dimension: a value that knows how well it is known (JCGM 100). Lengths in mm. */
export interface Dimension {
  readonly id: string;
  /** The name on the sheet. */
  readonly name: string;
  readonly value: number;
  /** Combined standard uncertainty. */
  readonly u: number;
  /** Effective degrees of freedom (Welch-Satterthwaite, truncated); Infinity when all Type B. */
  readonly dof: number;
  readonly unit: 'mm' | 'deg' | 'degC' | 'N' | 'g' | '1';
  /** How many readings. */
  readonly n: number;
  /** Coverage factor for 95 % and the expanded uncertainty k u. */
  readonly k: number;
  readonly U: number;
  /** Independent causes, each with sensitivity 1 on the value; their squares add up to u squared. */
  readonly contributors: readonly Contributor[];
  readonly remarks: readonly Remark[];
}
