// Sums and counts over triangles by arithmetic of their own, for what the readers say to be held against.
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import type { DonorMesh } from '../../../src/donor/types.ts';

/** Nine numbers a triangle of an STL file as three.js reads it. */
export const threeCorners = (file: Uint8Array): Float64Array =>
  Float64Array.from(new STLLoader().parse(Uint8Array.from(file).buffer).getAttribute('position').array);

/** Nine numbers a triangle of a mesh. */
export const cornersOf = ({ positions, triangles }: DonorMesh): Float64Array =>
  Float64Array.from([...triangles].flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)]));

/** Volume by the divergence theorem with the field (x, 0, 0): the mean x of each triangle times its area seen along x. */
export function volumeOf(corners: Float64Array): number {
  let volume = 0;
  for (let t = 0; t < corners.length; t += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = corners.subarray(t, t + 9) as unknown as number[];
    const seen = ((by! - ay!) * (cz! - az!) - (bz! - az!) * (cy! - ay!)) / 2;
    volume += (seen * (ax! + bx! + cx!)) / 3;
  }
  return volume;
}

/** Longest extents along x, y, z. */
export function extentsOf(corners: Float64Array): number[] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  corners.forEach((x, k) => {
    low[k % 3] = Math.min(low[k % 3]!, x);
    high[k % 3] = Math.max(high[k % 3]!, x);
  });
  return high.map((x, k) => x - low[k]!);
}

/** What is wrong with a mesh: each directed edge once, and its opposite once. Empty when nothing is. */
export function faultsOfMesh({ positions, triangles }: DonorMesh): string[] {
  const faults: string[] = [];
  if (!positions.every(Number.isFinite)) faults.push('a coordinate is no number');
  const directed = new Set<string>();
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const [from, to] = [triangles[t + k]!, triangles[t + ((k + 1) % 3)]!];
      if (from >= positions.length / 3) faults.push(`no vertex ${from}`);
      if (directed.has(`${from} ${to}`)) faults.push(`edge ${from} ${to} twice`);
      directed.add(`${from} ${to}`);
    }
  for (const edge of directed) {
    const [from, to] = edge.split(' ');
    if (!directed.has(`${to} ${from}`)) faults.push(`edge ${edge} open`);
  }
  return faults;
}
