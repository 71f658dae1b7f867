import type { Arm } from './arms.ts';

/** What gmsh and CalculiX said about one arm, for a load of 1 N across it (a plane arm's by mm of depth). */
export interface Recorded {
  readonly arm: Arm;
  readonly nodes: number;
  /** Change of give or strain, whichever is larger, in the last refinement. */
  readonly change: number;
  /** Movement of the loaded face, mm/N. */
  readonly give: number;
  /** Nominal bending strain at the root on the tension side, 1/N, and of a leg on its inner edge. */
  readonly strain: number;
  readonly inner?: number;
  /** Largest principal strain at the fillet. */
  readonly peak?: number;
}
