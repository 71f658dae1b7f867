/** For each half-edge 3 t + k of a mesh, which runs from corner k of triangle t to the next, the half-edge that runs
 *  the other way along the same edge; -1 where there is none, or where more than two triangles meet.
 *  Hashed by both corners, so a fan of a million triangles around one vertex costs no more than any other mesh.
 *  @example edgeMates(Uint32Array.of(0, 1, 2, 2, 1, 3)) // => Int32Array.of(-1, 3, -1, 1, -1, -1) */
export function edgeMates(triangles: Uint32Array): Int32Array {
  const count = triangles.length;
  const mates = new Int32Array(count).fill(-1);
  const slots = 2 ** Math.ceil(Math.log2(Math.max(4, 2 * count)));
  const table = new Int32Array(slots).fill(-1);
  const crowded = new Uint8Array(count);
  const to = (h: number): number => triangles[h % 3 === 2 ? h - 2 : h + 1]!;
  for (let h = 0; h < count; h++) {
    const [a, b] = [triangles[h]!, to(h)];
    const [low, high] = a < b ? [a, b] : [b, a];
    let slot = (Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) >>> 0;
    slot = (slot ^ (slot >>> 15)) & (slots - 1);
    for (;;) {
      const first = table[slot]!;
      if (first === -1) {
        table[slot] = h;
        break;
      }
      const [c, d] = [triangles[first]!, to(first)];
      if ((c === a && d === b) || (c === b && d === a)) {
        if (c === b && mates[first] === -1 && !crowded[first]) {
          mates[first] = h;
          mates[h] = first;
        } else {
          const other = mates[first]!;
          if (other !== -1) mates[other] = -1;
          mates[first] = -1;
          crowded[first] = 1;
        }
        break;
      }
      slot = (slot + 1) & (slots - 1);
    }
  }
  return mates;
}
