import type { ClipProfile } from './clipProfile.ts';

interface FiniteElementResult {
  /** N per mm of depth, one side. */
  readonly force: number;
  /** Largest tensile and compressive principal strain, both 0 or above. */
  readonly tension: number;
  readonly compression: number;
  /** Where the largest tension is, mm. */
  readonly at: readonly [number, number];
}

/** What gmsh and CalculiX said about one clip. */
export interface Recorded {
  readonly clip: ClipProfile;
  readonly nodes: number;
  /** Change of strain or force, whichever is larger, in the last halving of the element edge. */
  readonly change: number;
  /** Load spread over a patch of the boundary at the lip. */
  readonly patch: FiniteElementResult;
  /** The lip's corner node alone moved. */
  readonly single: FiniteElementResult;
}
