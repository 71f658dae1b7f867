// Models as three.js reads them back, looked over by counting alone: none of it goes through the project.
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { readThreeMf } from '../../output/threeMf/readThreeMf.ts';
import { nineAt } from '../../solid/nineAt.ts';

/** What is wrong with triangles, nine numbers each; empty when nothing is. Corners are the same where their
 *  numbers are, 32 bits each in an STL, as for any reader of it. `whole`: two triangles at each edge, and no more. */
export function faultsOfCorners(
  corners: Float64Array,
  { whole }: { readonly whole: boolean },
): readonly string[] {
  if (corners.length === 0) return ['nothing in it'];
  if (!corners.every(Number.isFinite)) return ['a coordinate is no number'];
  const ids = new Map<string, number>();
  const at = Array.from({ length: corners.length / 3 }, (_, k) => {
    const key = [0, 1, 2].map((n) => corners[3 * k + n]! + 0).join(' ');
    if (!ids.has(key)) ids.set(key, ids.size);
    return ids.get(key)!;
  });
  const edges = new Map<string, { up: number; down: number }>();
  let flat = 0;
  for (let t = 0; t < at.length; t += 3) {
    if (at[t] === at[t + 1] || at[t + 1] === at[t + 2] || at[t + 2] === at[t]) {
      flat++;
      continue;
    }
    for (let k = 0; k < 3; k++) {
      const [from, to] = [at[t + k]!, at[t + ((k + 1) % 3)]!];
      const key = from < to ? `${from} ${to}` : `${to} ${from}`;
      const edge = edges.get(key) ?? { up: 0, down: 0 };
      edges.set(key, edge);
      if (from < to) edge.up++;
      else edge.down++;
    }
  }
  const all = [...edges.values()];
  const open = all.filter(({ up, down }) => up !== down).length;
  const crowded = all.filter(({ up, down }) => up === down && up > 1).length;
  const volume = volumeOf(corners);
  return [
    ...(flat > 0 ? [`${flat} triangles with two corners in one place`] : []),
    ...(open > 0 ? [`${open} edges open or facing both ways`] : []),
    ...(whole && crowded > 0 ? [`${crowded} edges with more than two triangles`] : []),
    ...(volume > 0 ? [] : [`volume ${volume}`]),
  ];
}

/** Volume by tetrahedra to the origin. */
export function volumeOf(corners: Float64Array): number {
  let six = 0;
  for (let t = 0; t < corners.length; t += 9) {
    const [a, b, c, d, e, f, g, h, i] = nineAt(corners, t);
    six += a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  }
  return six / 6;
}

/** Nine numbers a triangle of an STL file, whether text or not. */
export const stlCorners = (file: Uint8Array): Float64Array =>
  Float64Array.from(new STLLoader().parse(Uint8Array.from(file).buffer).getAttribute('position').array);

/** Throws unless a model closes, faces outward, and encloses something. Gives its volume, mm^3. */
export function mustBeSolid(name: string, bytes: Uint8Array, { whole }: { readonly whole: boolean }): number {
  const items = name.endsWith('.3mf')
    ? readThreeMf(bytes).map(({ corners }) => corners)
    : [stlCorners(bytes)];
  if (items.length === 0) throw new Error(`${name} has nothing to build`);
  return items.reduce((sum, corners, k) => {
    const faults = faultsOfCorners(corners, { whole });
    if (faults.length > 0) throw new Error(`${name}, item ${k + 1}: ${faults.join(', ')}`);
    return sum + volumeOf(corners);
  }, 0);
}
