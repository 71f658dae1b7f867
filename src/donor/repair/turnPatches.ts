import { DonorRefusal, placeText } from '../donorRefusal.ts';
import type { DonorMesh } from '../types.ts';
import { middleOf, withTurned } from './geometry.ts';
import type { Pairing } from './pairing.ts';
import { patchesOf } from './patches.ts';
import type { Step } from './step.ts';

/** Makes the triangles of each patch face one way: the way most of them face. Throws `donor_one_sided` for a patch
 *  that has but one side, like a strip glued to a ring with half a twist. */
export function turnPatches(mesh: DonorMesh, pairing: Pairing): Step {
  if (pairing.clashes === 0) return { mesh, count: 0, at: null };
  const { of, count, turned, contradiction } = patchesOf(mesh, pairing.mate);
  if (contradiction !== null) {
    const at = middleOf(mesh, contradiction);
    throw new DonorRefusal(
      'donor_one_sided',
      `a surface whose inside turns into its outside, near ${placeText(at)}`,
      'a surface with an inside and an outside',
      at,
    );
  }
  const balance = new Int32Array(count);
  for (let t = 0; t < of.length; t++) balance[of[t]!]! += turned[t] ? -1 : 1;
  const turn = (t: number): boolean => (turned[t] === 1) === balance[of[t]!]! >= 0;
  let turnedNow = 0;
  let first = -1;
  for (let t = 0; t < of.length; t++) {
    if (!turn(t)) continue;
    turnedNow++;
    if (first < 0) first = t;
  }
  return { mesh: withTurned(mesh, turn), count: turnedNow, at: middleOf(mesh, 3 * first) };
}
