import type { ProfileMesh } from './profileMesh.ts';
import { reverseCuthillMcKee } from './reverseCuthillMcKee.ts';
import type { Skyline } from './skylineCholesky.ts';
import { skyline } from './skylineCholesky.ts';

/** Stiffness matrix of a mesh, over the nodes that can move. */
export interface System {
  readonly matrix: Skyline;
  /** First of the two unknowns of each node, -1 for a node that stands still. */
  readonly dof: Int32Array;
  readonly size: number;
}

/** Places and weights of the three Gauss points in a triangle, exact for the square of a linear strain. */
const GAUSS: readonly (readonly [number, number])[] = [
  [1 / 6, 1 / 6],
  [2 / 3, 1 / 6],
  [1 / 6, 2 / 3],
];

/** Derivatives of the six shape functions with r and s, at r, s. */
function shapeDerivatives(r: number, s: number): { dr: number[]; ds: number[] } {
  const q = 1 - r - s;
  return {
    dr: [1 - 4 * q, 4 * r - 1, 0, 4 * (q - r), 4 * s, -4 * s],
    ds: [1 - 4 * q, 0, 4 * s - 1, -4 * r, 4 * r, 4 * (q - s)],
  };
}

const AT_GAUSS = GAUSS.map(([r, s]) => shapeDerivatives(r, s));

/** Derivatives with x and y of the shape functions of one triangle at one Gauss point, into `dx`, `dy`; returns the
 *  determinant of the Jacobian. */
function gradients(
  mesh: ProfileMesh,
  t: number,
  { dr, ds }: (typeof AT_GAUSS)[number],
  dx: Float64Array,
  dy: Float64Array,
): number {
  let [xr, yr, xs, ys] = [0, 0, 0, 0];
  for (let k = 0; k < 6; k++) {
    const node = mesh.triangles[t + k]!;
    const x = mesh.nodes[2 * node]!;
    const y = mesh.nodes[2 * node + 1]!;
    xr += dr[k]! * x;
    yr += dr[k]! * y;
    xs += ds[k]! * x;
    ys += ds[k]! * y;
  }
  const j = xr * ys - xs * yr;
  for (let k = 0; k < 6; k++) {
    dx[k] = (ys * dr[k]! - yr * ds[k]!) / j;
    dy[k] = (xr * ds[k]! - xs * dr[k]!) / j;
  }
  return j;
}

/** Stiffness matrix in plane stress of the nodes that are not `still`, numbered to keep its skyline low.
 *  `modulus` in MPa; entries in N/mm per mm of depth. `null` for an element turned inside out.
 *  Three Gauss points: exact for elements with straight edges. */
export function assemble(
  mesh: ProfileMesh,
  still: Uint8Array,
  modulus: number,
  poisson: number,
): System | null {
  const { triangles } = mesh;
  const { start, list } = neighbours(triangles, still.length);
  const rank = reverseCuthillMcKee(start, list);
  const inOrder = new Int32Array(still.length);
  rank.forEach((r, node) => {
    inOrder[r] = node;
  });
  const dof = new Int32Array(still.length).fill(-1);
  let size = 0;
  for (const node of inOrder) {
    if (still[node]) continue;
    dof[node] = size;
    size += 2;
  }
  const first = new Int32Array(size);
  for (let node = 0; node < still.length; node++) {
    if (dof[node]! < 0) continue;
    let least = dof[node]!;
    for (let k = start[node]!; k < start[node + 1]!; k++) {
      const d = dof[list[k]!]!;
      if (d >= 0 && d < least) least = d;
    }
    first[dof[node]!] = least;
    first[dof[node]! + 1] = least;
  }
  const matrix = skyline(first);
  const plane = modulus / (1 - poisson * poisson);
  const shear = modulus / (2 * (1 + poisson));
  const dx = new Float64Array(6);
  const dy = new Float64Array(6);
  const { values, at } = matrix;
  for (let t = 0; t < triangles.length; t += 6) {
    for (const derivatives of AT_GAUSS) {
      const j = gradients(mesh, t, derivatives, dx, dy);
      if (!(j > 0)) return null;
      const w = j / 6;
      const [n, c, g] = [plane * w, plane * poisson * w, shear * w];
      for (let a = 0; a < 6; a++) {
        const da = dof[triangles[t + a]!]!;
        if (da < 0) continue;
        const [ax, ay] = [dx[a]!, dy[a]!];
        for (let b = 0; b < 6; b++) {
          const db = dof[triangles[t + b]!]!;
          if (db < 0 || db > da) continue;
          const [bx, by] = [dx[b]!, dy[b]!];
          const row0 = at[da]! + db;
          const row1 = at[da + 1]! + db;
          values[row0] = values[row0]! + n * ax * bx + g * ay * by;
          values[row1] = values[row1]! + c * ay * bx + g * ax * by;
          values[row1 + 1] = values[row1 + 1]! + n * ay * by + g * ax * bx;
          if (db < da) values[row0 + 1] = values[row0 + 1]! + c * ax * by + g * ay * bx;
        }
      }
    }
  }
  return { matrix, dof, size };
}

/** Which nodes share a triangle, as one list. */
function neighbours(triangles: Int32Array, count: number): { start: Int32Array; list: Int32Array } {
  const incident = new Int32Array(count + 1);
  for (const node of triangles) incident[node + 1] = incident[node + 1]! + 1;
  for (let i = 0; i < count; i++) incident[i + 1] = incident[i + 1]! + incident[i]!;
  const fill = incident.slice();
  const byNode = new Int32Array(triangles.length);
  for (let k = 0; k < triangles.length; k++) {
    const node = triangles[k]!;
    byNode[fill[node]!] = k - (k % 6);
    fill[node] = fill[node]! + 1;
  }
  const start = new Int32Array(count + 1);
  const list: number[] = [];
  const seen = new Int32Array(count).fill(-1);
  for (let node = 0; node < count; node++) {
    seen[node] = node;
    for (let i = incident[node]!; i < incident[node + 1]!; i++) {
      for (let k = 0; k < 6; k++) {
        const other = triangles[byNode[i]! + k]!;
        if (seen[other] === node) continue;
        seen[other] = node;
        list.push(other);
      }
    }
    start[node + 1] = list.length;
  }
  return { start, list: Int32Array.from(list) };
}

/** Larger and smaller principal strain at each node, in pairs, of movements `u` (x, y of each node): the mean, weighted
 *  by area, of what the triangles around a node extrapolate from their Gauss points, where strain is most accurate. */
export function nodalPrincipalStrains(mesh: ProfileMesh, u: Float64Array): Float64Array {
  const count = mesh.nodes.length / 2;
  const sum = new Float64Array(3 * count);
  const weight = new Float64Array(count);
  const dx = new Float64Array(6);
  const dy = new Float64Array(6);
  const e = new Float64Array(9);
  for (let t = 0; t < mesh.triangles.length; t += 6) {
    let area = 0;
    for (let g = 0; g < 3; g++) {
      area += gradients(mesh, t, AT_GAUSS[g]!, dx, dy) / 6;
      let [xx, yy, xy] = [0, 0, 0];
      for (let k = 0; k < 6; k++) {
        const node = mesh.triangles[t + k]!;
        const [ux, uy] = [u[2 * node]!, u[2 * node + 1]!];
        xx += dx[k]! * ux;
        yy += dy[k]! * uy;
        xy += dy[k]! * ux + dx[k]! * uy;
      }
      e[3 * g] = xx;
      e[3 * g + 1] = yy;
      e[3 * g + 2] = xy;
    }
    for (let k = 0; k < 6; k++) {
      const node = mesh.triangles[t + k]!;
      weight[node] = weight[node]! + area;
      // The linear field through the Gauss points, at the corners and half-way between them.
      const [g0, g1, g2] = EXTRAPOLATE[k]!;
      for (let c = 0; c < 3; c++) {
        sum[3 * node + c] = sum[3 * node + c]! + area * (g0 * e[c]! + g1 * e[3 + c]! + g2 * e[6 + c]!);
      }
    }
  }
  const principal = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const [xx, yy, xy] = [
      sum[3 * i]! / weight[i]!,
      sum[3 * i + 1]! / weight[i]!,
      sum[3 * i + 2]! / weight[i]!,
    ];
    const radius = Math.hypot((xx - yy) / 2, xy / 2);
    principal[2 * i] = (xx + yy) / 2 + radius;
    principal[2 * i + 1] = (xx + yy) / 2 - radius;
  }
  return principal;
}

const EXTRAPOLATE: readonly (readonly [number, number, number])[] = [
  [5 / 3, -1 / 3, -1 / 3],
  [-1 / 3, 5 / 3, -1 / 3],
  [-1 / 3, -1 / 3, 5 / 3],
  [2 / 3, 2 / 3, -1 / 3],
  [-1 / 3, 2 / 3, 2 / 3],
  [2 / 3, -1 / 3, 2 / 3],
];
