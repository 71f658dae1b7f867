import type { ManifoldToplevel } from '../../solid/kernel.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { axisFrame } from './axisFrame.ts';
import type { Surface } from './surfaceOf.ts';
import { withoutSlivers } from './withoutSlivers.ts';

/** Heights below this share of the diagonal would be none in a file of 32-bit numbers. */
const SLIVER = 1e-6;

/** Lays the triangles of a flat face anew between the same vertices, some of which have moved within it. `face`: its triangles.
 *  Gives three vertex numbers a triangle; undefined where its outlines cross or touch. */
export function relayFace(
  kernel: ManifoldToplevel,
  { mesh, mates, normals, areas, diagonal }: Surface,
  face: readonly number[],
  positions: Float64Array,
): Uint32Array | undefined {
  const { triangles } = mesh;
  const own = new Set(face);
  const next = new Map<number, number>();
  for (const t of face) {
    for (let k = 0; k < 3; k++) {
      const mate = mates[3 * t + k]!;
      if (mate !== -1 && own.has(Math.floor(mate / 3))) continue;
      const from = triangles[3 * t + k]!;
      // An outline that passes one vertex twice leaves open which way it goes on.
      if (next.has(from)) return undefined;
      next.set(from, triangles[3 * t + ((k + 1) % 3)]!);
    }
  }
  const largest = face.reduce((best, t) => (areas[t]! > areas[best]! ? t : best), face[0]!);
  const first = 3 * triangles[3 * largest]!;
  const [ax, ay, az] = normals.subarray(3 * largest, 3 * largest + 3);
  const [cx, cy, cz] = positions.subarray(first, first + 3);
  const frame = axisFrame({ ax: ax!, ay: ay!, az: az!, cx: cx!, cy: cy!, cz: cz!, radius: 0 });
  const flat = (v: number): Vec3 =>
    frame.local(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!);

  const outlines: [number, number][][] = [];
  const order: number[] = [];
  const done = new Set<number>();
  let outline = 0;
  for (const start of next.keys()) {
    if (done.has(start)) continue;
    const points: [number, number][] = [];
    for (let v = start; !done.has(v); ) {
      done.add(v);
      order.push(v);
      const [x, y] = flat(v);
      points.push([x, y]);
      const following = next.get(v);
      if (following === undefined) return undefined;
      v = following;
    }
    points.forEach(([x, y], i) => {
      const [u, w] = points[(i + 1) % points.length]!;
      outline += (x * w - u * y) / 2;
    });
    outlines.push(points);
  }

  const spread = kernel.triangulate(outlines, 0, false).flatMap((corners) => corners.map((i) => order[i]!));
  const plane = (v: number): [number, number] => {
    const [x, y] = flat(v);
    return [x, y];
  };
  const result = withoutSlivers(spread, plane, SLIVER * diagonal);
  let laid = 0;
  for (let i = 0; i < result.length; i += 3) {
    const [p, q, r] = [plane(result[i]!), plane(result[i + 1]!), plane(result[i + 2]!)];
    const area = ((q[0] - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (q[1] - p[1])) / 2;
    if (!(area > 0)) return undefined;
    laid += area;
  }
  // Triangles that overlap, or leave something out, do not add up to what the outlines enclose.
  if (Math.abs(laid - outline) > 1e-9 * outline) return undefined;
  return joinsElsewhere(result) ? undefined : Uint32Array.from(result);

  /** Whether an edge across the face is also an edge of another face, where three would then meet. */
  function joinsElsewhere(list: readonly number[]): boolean {
    const across = new Set<number>();
    for (let h = 0; h < list.length; h++) {
      const [a, b] = [list[h]!, list[h % 3 === 2 ? h - 2 : h + 1]!];
      if (next.get(a) !== b && a < b) across.add(a * 2 ** 26 + b);
    }
    for (let h = 0; h < triangles.length; h++) {
      const [a, b] = [triangles[h]!, triangles[h % 3 === 2 ? h - 2 : h + 1]!];
      if (a < b && across.has(a * 2 ** 26 + b) && !own.has(Math.floor(h / 3))) return true;
    }
    return false;
  }
}
