import type { DonorMesh } from '../types.ts';
import { CROWDED, clashing, OPEN } from './pairing.ts';

/** Triangles that hang together across edges that two of them share. */
export interface Patches {
  /** Number of its patch for each triangle, from 0 in the order of their first triangles. */
  readonly of: Int32Array;
  readonly count: number;
  /** Whether the triangle must be turned for all of its patch to face as its first triangle does. */
  readonly turned: Uint8Array;
  /** Half-edge at which a patch contradicts itself, whichever way it is turned; null when there is none. */
  readonly contradiction: number | null;
}

/** Floods the mesh across shared edges, from the first triangle of each patch. */
export function patchesOf({ triangles }: DonorMesh, mate: Int32Array): Patches {
  const size = triangles.length / 3;
  const of = new Int32Array(size).fill(-1);
  const turned = new Uint8Array(size);
  const waiting = new Uint32Array(size);
  let [count, contradiction] = [0, null as number | null];
  for (let seed = 0; seed < size; seed++) {
    if (of[seed] !== -1) continue;
    of[seed] = count;
    let [from, to] = [0, 1];
    waiting[0] = seed;
    while (from < to) {
      const t = waiting[from++]!;
      for (let h = 3 * t; h < 3 * t + 3; h++) {
        const m = mate[h]!;
        if (m === OPEN || m === CROWDED) continue;
        const clash = m < 0;
        const other = Math.floor((clash ? clashing(m) : m) / 3);
        const turn = clash ? 1 - turned[t]! : turned[t]!;
        if (of[other] === -1) {
          of[other] = count;
          turned[other] = turn;
          waiting[to++] = other;
        } else if (turned[other] !== turn) contradiction ??= h;
      }
    }
    count++;
  }
  return { of, count, turned, contradiction };
}
