import { isSharp } from '../../src/output/drawing/drawnEdges.ts';
import { facetedSolid } from '../../src/output/drawing/facetedSolid.ts';
import { viewOf } from '../../src/output/drawing/index.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import type { Vec3 } from '../../src/solid/vector.ts';

/** What of a solid is drawn in lines, whatever the view. Frame of the mesh, mm. */
export interface Linework {
  /** Edges where the surface turns sharply: six numbers a line. */
  readonly sharp: Float32Array;
  /** The others, which show where the surface turns away from the reader: six numbers a line. */
  readonly smooth: Float32Array;
  /** Normals of the two faces at each smooth edge: six numbers a line. */
  readonly normals: Float32Array;
  /** Corners of the triangles, nine numbers each, and their normals, alike on both sides of a smooth edge. */
  readonly corners: Float32Array;
  readonly cornerNormals: Float32Array;
}

/** Meshes with more triangles than this are shown by their faces alone. */
const MOST = 30_000;

/** The lines of a mesh and its surface for shading. */
export function lineworkOf(mesh: Mesh): Linework {
  const none = new Float32Array(0);
  const corners = unshared(mesh);
  if (mesh.triangles.length / 3 > MOST)
    return { sharp: none, smooth: none, normals: none, corners, cornerNormals: flatNormals(corners) };
  const solid = facetedSolid(mesh, viewOf('top'));
  const sharp = isSharp(solid);
  const [hard, soft, normals]: [number[], number[], number[]] = [[], [], []];
  for (const edge of solid.edges) {
    const line = [...solid.points[edge.from]!, ...solid.points[edge.to]!];
    if (edge.back < 0 || sharp(edge)) hard.push(...line);
    else {
      soft.push(...line);
      normals.push(...solid.normals[edge.ahead]!, ...solid.normals[edge.back]!);
    }
  }
  return {
    sharp: Float32Array.from(hard),
    smooth: Float32Array.from(soft),
    normals: Float32Array.from(normals),
    corners,
    cornerNormals: flatNormals(corners),
  };
}

/** Edges of a round surface that are its outline out of a direction: six numbers a line. */
export function outlineFrom(
  { smooth, normals }: Linework,
  toward: Readonly<Vec3>,
  into: Float32Array = new Float32Array(smooth.length),
): Float32Array {
  let end = 0;
  const facing = (i: number): boolean =>
    normals[i]! * toward[0] + normals[i + 1]! * toward[1] + normals[i + 2]! * toward[2] > 1e-4;
  for (let i = 0; i < smooth.length; i += 6) {
    if (facing(i) === facing(i + 3)) continue;
    into.set(smooth.subarray(i, i + 6), end);
    end += 6;
  }
  return into.subarray(0, end);
}

function unshared({ positions, triangles }: Mesh): Float32Array {
  const corners = new Float32Array(3 * triangles.length);
  triangles.forEach((vertex, k) => {
    corners.set(positions.subarray(3 * vertex, 3 * vertex + 3), 3 * k);
  });
  return corners;
}

/** One normal a triangle, at each of its corners. */
export function flatNormals(corners: Float32Array): Float32Array {
  const normals = new Float32Array(corners.length);
  for (let t = 0; t < corners.length; t += 9) {
    const side = (k: number): Vec3 => [
      corners[t + k]! - corners[t]!,
      corners[t + k + 1]! - corners[t + 1]!,
      corners[t + k + 2]! - corners[t + 2]!,
    ];
    const [u, v] = [side(3), side(6)];
    const n: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const size = Math.hypot(...n) || 1;
    for (let k = 0; k < 9; k++) normals[t + k] = n[k % 3]! / size;
  }
  return normals;
}
