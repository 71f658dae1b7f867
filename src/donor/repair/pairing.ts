import type { DonorMesh } from '../types.ts';

/** Which half-edge lies against which. Half-edge h = 3 t + k runs from corner k of triangle t to the next one. */
export interface Pairing {
  /** The half-edge that runs the same edge the other way; else `OPEN`, `CROWDED`, or `clashing(other)`. */
  readonly mate: Int32Array;
  /** Half-edges with nothing against them. */
  readonly open: readonly number[];
  /** Half-edges of each edge at which more than two triangles meet. */
  readonly crowded: readonly (readonly number[])[];
  /** Edges whose two triangles run it the same way: one of them faces in. */
  readonly clashes: number;
}

/** Nothing lies against the half-edge. */
export const OPEN = -1;
/** More than one does. */
export const CROWDED = -2;
/** One does that runs the same way; its own inverse. */
export const clashing = (other: number): number => -3 - other;

/** The next half-edge around the same triangle. */
export const nextOf = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);
/** The half-edge before it. */
export const beforeOf = (h: number): number => (h % 3 === 0 ? h + 2 : h - 1);

/** Finds what lies against what: half-edges sorted by their two ends in two counting passes, so the time grows with the
 *  number of triangles and no vertex with many of them slows it down. */
export function pairingOf({ positions, triangles }: DonorMesh): Pairing {
  const order = byEnds(triangles, positions.length / 3);
  const mate = new Int32Array(triangles.length).fill(OPEN);
  const open: number[] = [];
  const crowded: number[][] = [];
  let clashes = 0;
  for (let from = 0; from < order.length; ) {
    const first = order[from]!;
    const [low, high] = [lowEnd(triangles, first), highEnd(triangles, first)];
    let to = from + 1;
    while (
      to < order.length &&
      lowEnd(triangles, order[to]!) === low &&
      highEnd(triangles, order[to]!) === high
    )
      to++;
    if (to - from === 1) open.push(first);
    else if (to - from === 2) {
      const second = order[from + 1]!;
      const opposite = triangles[first] !== triangles[second];
      mate[first] = opposite ? second : clashing(second);
      mate[second] = opposite ? first : clashing(first);
      if (!opposite) clashes++;
    } else {
      crowded.push([...order.subarray(from, to)]);
      for (let k = from; k < to; k++) mate[order[k]!] = CROWDED;
    }
    from = to;
  }
  return { mate, open, crowded, clashes };
}

const lowEnd = (triangles: Uint32Array, h: number): number => Math.min(triangles[h]!, triangles[nextOf(h)]!);
const highEnd = (triangles: Uint32Array, h: number): number => Math.max(triangles[h]!, triangles[nextOf(h)]!);

/** Half-edges sorted by the lower of their vertex numbers, then by the higher, then by their own. */
function byEnds(triangles: Uint32Array, vertices: number): Uint32Array {
  const byHigh = countingSort(triangles, vertices, highEnd);
  return countingSort(triangles, vertices, lowEnd, byHigh);
}

function countingSort(
  triangles: Uint32Array,
  vertices: number,
  keyOf: (triangles: Uint32Array, h: number) => number,
  given?: Uint32Array,
): Uint32Array {
  const starts = new Uint32Array(vertices + 1);
  const count = triangles.length;
  for (let h = 0; h < count; h++) starts[keyOf(triangles, h) + 1]!++;
  for (let v = 0; v < vertices; v++) starts[v + 1]! += starts[v]!;
  const sorted = new Uint32Array(count);
  for (let k = 0; k < count; k++) {
    const h = given === undefined ? k : given[k]!;
    sorted[starts[keyOf(triangles, h)]!++] = h;
  }
  return sorted;
}
