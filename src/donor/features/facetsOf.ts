import type { Surface } from './surfaceOf.ts';

/** The number of the flat face each triangle belongs to: the number of its first triangle. */
export function facetsOf({ mates, flat }: Surface): Int32Array {
  const count = mates.length / 3;
  const facet = new Int32Array(count).fill(-1);
  const queue = new Int32Array(count);
  for (let first = 0; first < count; first++) {
    if (facet[first] !== -1) continue;
    facet[first] = first;
    queue[0] = first;
    let length = 1;
    for (let i = 0; i < length; i++) {
      for (let h = 3 * queue[i]!; h < 3 * queue[i]! + 3; h++) {
        if (!flat[h]) continue;
        const t = Math.floor(mates[h]! / 3);
        if (facet[t] !== -1) continue;
        facet[t] = first;
        queue[length++] = t;
      }
    }
  }
  return facet;
}
