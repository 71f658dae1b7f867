import type { DonorRemark, LengthUnit } from '../types.ts';

/** Triangles as a file lists them, each with three corners of its own. */
export interface TriangleSoup {
  /** Nine numbers a triangle, unit of the file; NaN where the file has none. */
  readonly corners: Float64Array;
  /** Why some triangles may be missing from the end, for a refusal; null when the file is all there. */
  readonly cutShort: string | null;
  readonly declaredUnit: LengthUnit | null;
  readonly remarks: readonly DonorRemark[];
}

/** Called now and then with how much of the work is done, 0 to 1, never going back. */
export type Progress = (share: number) => void;
