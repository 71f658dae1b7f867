import type { DonorMesh } from './types.ts';

/** A mesh whose triangles share their corners, and what was left behind on the way. */
export interface Welded {
  readonly mesh: DonorMesh;
  /** Triangles with a coordinate that is no number, or too large to reckon with. */
  readonly numbersMissing: number;
  /** Triangles with two corners in one place. They have no area, and taking them out opens nothing. */
  readonly collapsed: number;
}

/** Beyond it products of three coordinates leave the doubles. */
const LARGEST = 1e30;

/** Makes one vertex of corners whose coordinates are equal to the last bit (-0 and 0 are one), by a hash table that
 *  grows with what is in it. Vertices come in the order of their first corner, so the same soup gives the same mesh.
 *  `corners`: nine numbers a triangle.
 *  @example weldCorners(cubeSoup).mesh.positions.length // => 24 */
export function weldCorners(corners: Float64Array): Welded {
  const count = corners.length / 9;
  const table = new VertexTable(Math.ceil(count / 2));
  const triangles = new Uint32Array(3 * count);
  let [kept, numbersMissing, collapsed] = [0, 0, 0];
  for (let t = 0; t < count; t++) {
    const at = 9 * t;
    let finite = true;
    for (let k = at; k < at + 9; k++) finite &&= Math.abs(corners[k]!) < LARGEST;
    if (!finite) {
      numbersMissing++;
      continue;
    }
    const a = table.vertex(corners[at]!, corners[at + 1]!, corners[at + 2]!);
    const b = table.vertex(corners[at + 3]!, corners[at + 4]!, corners[at + 5]!);
    const c = table.vertex(corners[at + 6]!, corners[at + 7]!, corners[at + 8]!);
    if (a === b || b === c || c === a) {
      collapsed++;
      continue;
    }
    triangles[kept++] = a;
    triangles[kept++] = b;
    triangles[kept++] = c;
  }
  return {
    mesh: { positions: table.positions(), triangles: triangles.slice(0, kept) },
    numbersMissing,
    collapsed,
  };
}

/** The same for a mesh that shares some vertices already. */
export function weldVertices({ positions, triangles }: DonorMesh): Welded {
  const corners = new Float64Array(3 * triangles.length);
  for (let h = 0; h < triangles.length; h++)
    for (let k = 0; k < 3; k++) corners[3 * h + k] = positions[3 * triangles[h]! + k]!;
  return weldCorners(corners);
}

/** Vertices by their coordinates; open addressing, at most half full. */
class VertexTable {
  #positions: Float64Array;
  #slots: Int32Array;
  #count = 0;
  readonly #number = new Float64Array(1);
  readonly #halves = new Int32Array(this.#number.buffer);

  constructor(expected: number) {
    this.#positions = new Float64Array(3 * Math.max(16, expected));
    this.#slots = new Int32Array(2 ** Math.ceil(Math.log2(2 * Math.max(16, expected))));
  }

  /** Number of the vertex in this place. */
  vertex(x: number, y: number, z: number): number {
    const slot = this.#slot(x, y, z);
    const known = this.#slots[slot]!;
    if (known !== 0) return known - 1;
    const vertex = this.#count++;
    if (3 * vertex === this.#positions.length) {
      const larger = new Float64Array(2 * this.#positions.length);
      larger.set(this.#positions);
      this.#positions = larger;
    }
    // Adding 0 makes -0 a 0.
    this.#positions[3 * vertex] = x + 0;
    this.#positions[3 * vertex + 1] = y + 0;
    this.#positions[3 * vertex + 2] = z + 0;
    this.#slots[slot] = vertex + 1;
    if (2 * this.#count > this.#slots.length) this.#grow();
    return vertex;
  }

  positions(): Float64Array {
    return this.#positions.slice(0, 3 * this.#count);
  }

  #slot(x: number, y: number, z: number): number {
    const mask = this.#slots.length - 1;
    let slot = this.#mix(this.#mix(this.#mix(0, x), y), z) & mask;
    for (;;) {
      const known = this.#slots[slot]!;
      if (known === 0) return slot;
      const at = 3 * (known - 1);
      if (this.#positions[at] === x && this.#positions[at + 1] === y && this.#positions[at + 2] === z)
        return slot;
      slot = (slot + 1) & mask;
    }
  }

  #mix(hash: number, value: number): number {
    this.#number[0] = value + 0;
    let mixed = Math.imul(hash ^ this.#halves[0]!, 0x9e3779b1);
    mixed = Math.imul(mixed ^ (mixed >>> 15) ^ this.#halves[1]!, 0x85ebca6b);
    return mixed ^ (mixed >>> 13);
  }

  #grow(): void {
    this.#slots = new Int32Array(2 * this.#slots.length);
    for (let v = 0; v < this.#count; v++) {
      const at = 3 * v;
      this.#slots[this.#slot(this.#positions[at]!, this.#positions[at + 1]!, this.#positions[at + 2]!)] =
        v + 1;
    }
  }
}
