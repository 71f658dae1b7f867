import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';

/** What one kind of repair did; `count` 0 and the same mesh when there was nothing to do. */
export interface Step {
  readonly mesh: DonorMesh;
  readonly count: number;
  /** Where the first one is. */
  readonly at: Vec3 | null;
}
