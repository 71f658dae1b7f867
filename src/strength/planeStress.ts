import type { Contour, Vec2 } from '../solid/vector.ts';
import type { ProfileMesh } from './profileMesh.ts';
import { profileMesh } from './profileMesh.ts';
import { factorise, solveFactorised } from './skylineCholesky.ts';
import { assemble, nodalPrincipalStrains } from './triangleElement.ts';

/** A place on the boundary that is moved by a given amount, free to slide sideways and to turn. */
export interface Push {
  readonly at: Readonly<Vec2>;
  /** How far and which way, mm; only the mean movement along this direction is prescribed. */
  readonly by: Readonly<Vec2>;
}

export interface PlaneStressQuestion {
  /** Profile, mm: outer contours counter-clockwise, holes clockwise. */
  readonly contours: readonly Contour[];
  /** Modulus of elasticity, MPa, above 0. */
  readonly modulus: number;
  /** Poisson's ratio, 0 or above, below 0.5. */
  readonly poisson: number;
  /** True for the points that are held still. */
  readonly fixed: (p: Readonly<Vec2>) => boolean;
  readonly prescribed: readonly Push[];
  /** Strain nearer than this to a push does not count for the peak, mm: there the load itself dents the surface. */
  readonly strainAway: number;
  /** Element edge over local thickness, 0.05 to 2; absent: 0.35. */
  readonly thicknessSize?: number;
  /** Half-width of the patch of boundary that takes a push, mm; absent: 0.02. */
  readonly patch?: number;
  /** Distance from sharp re-entrant corners and from the ends of the held boundary at which strain begins to count,
   *  mm; absent: 0.2, half the usual line width of a filament printer. */
  readonly sampling?: number;
}

export interface PlaneStressAnswer {
  readonly ok: true;
  /** Principal strain of the largest magnitude, 0 or above, 0.01 is 1 %. */
  readonly peakStrain: number;
  readonly peakAt: Vec2;
  readonly peakSign: 'tension' | 'compression';
  /** Largest tensile principal strain, and where. */
  readonly tension: { readonly strain: number; readonly at: Vec2 };
  /** Largest compressive principal strain as a number 0 or above, and where. */
  readonly compression: { readonly strain: number; readonly at: Vec2 };
  /** Force of each push along its direction, N per mm of depth. */
  readonly forces: number[];
  /** Force of push i for 1 mm of push j alone, the others free to follow held at 0, N/mm per mm of depth, by rows. */
  readonly stiffness: number[][];
  /** x, y of each node, mm. */
  readonly nodes: Float64Array;
  /** Six nodes a triangle: three corners counter-clockwise, then the middles of edges 0-1, 1-2, 2-0. */
  readonly triangles: Int32Array;
  /** At each node the principal strain of the larger magnitude, tension positive. */
  readonly nodalStrain: Float64Array;
  /** x, y movement of each node, mm. */
  readonly displacement: Float64Array;
}

export interface PlaneStressProblem {
  readonly kind: 'value' | 'empty' | 'mesh' | 'not-held' | 'push-off-profile' | 'push-not-held';
  readonly sentence: string;
}

export type PlaneStressResult =
  | PlaneStressAnswer
  | { readonly ok: false; readonly problem: PlaneStressProblem };

/** How far a push may lie from the boundary, mm. */
const ON_BOUNDARY = 0.05;

/** Strains and forces in a flat part that is held in one place and pushed in others: linear elastic, small strain,
 *  plane stress, by finite elements on the drawn profile.
 *
 *  For spring arms that no beam formula fits: short, thick, curved, tapering. Six-node triangles (O. C. Zienkiewicz and
 *  R. L. Taylor, The Finite Element Method, from memory) with curved edges on curves, sized to the local thickness;
 *  stiffness by three Gauss points; direct solution by skyline Cholesky in reverse Cuthill-McKee order.
 *
 *  A push is a force spread over `2 patch` of the boundary, tapering to its ends, sized so that the mean movement of
 *  that patch along `by` is as asked; the place can turn and slide, as under the edge of a round bar. The movement under a
 *  true point load has no finite value in plane elasticity; it grows with the logarithm of 1/patch, a few per cent
 *  of force for half or twice the patch.
 *
 *  Strain at a node is the mean, weighted by area, of what its elements extrapolate from their Gauss points. The
 *  linear solution has infinite strain under a push, at re-entrant sharp corners and at the ends of a held boundary; a
 *  printed corner has a radius of about half a line width. The peak is therefore looked for further than
 *  `strainAway` from the pushes and further than `sampling` from such corners: the point method of the theory of critical distances
 *  (D. Taylor, The Theory of Critical Distances, 2007, from memory), with the printer's own radius as the distance.
 *
 *  Linear: forces and strains grow in proportion to the pushes. Printed layers are not isotropic and long strains are
 *  not elastic; the caller chooses modulus and limit for that.
 *  Fails as data: `value`, `empty`, `mesh` (contours that cross), `not-held`, `push-off-profile`, `push-not-held`.
 *  @example a bar 20 x 2 held at x = 0, its tip pushed 1 mm, E = 1000: 3 E I / L^3 is 0.25 N, less 1 % for shear
 *  solvePlaneStress({ contours: [[[0, 0], [20, 0], [20, 2], [0, 2]]], modulus: 1000, poisson: 0.35,
 *    fixed: (p) => p[0] < 1e-9, prescribed: [{ at: [20, 0], by: [0, 1] }], strainAway: 1 }).forces // => [0.249] */
export function solvePlaneStress(question: PlaneStressQuestion): PlaneStressResult {
  const { modulus, poisson, prescribed, strainAway, fixed } = question;
  const patch = question.patch ?? 0.02;
  const sampling = question.sampling ?? 0.2;
  const ofThickness = question.thicknessSize ?? 0.35;
  for (const [name, value, allowed] of [
    ['modulus', modulus, modulus > 0 && modulus < Infinity],
    ['poisson', poisson, poisson >= 0 && poisson < 0.5],
    ['patch', patch, patch > 0 && patch < Infinity],
    ['sampling', sampling, sampling >= 0],
    ['thicknessSize', ofThickness, ofThickness >= 0.05 && ofThickness <= 2],
    ['strainAway', strainAway, strainAway >= 0],
  ] as const) {
    if (!allowed) return fail('value', `plane stress cannot use ${name} ${value}`);
  }
  const flat = [...question.contours.flat(), ...prescribed.flatMap((p) => [p.at, p.by])];
  if (!flat.every((p) => Number.isFinite(p[0]) && Number.isFinite(p[1]))) {
    return fail('value', 'plane stress requires coordinates that are finite numbers');
  }
  if (prescribed.some(({ by }) => Math.hypot(by[0], by[1]) === 0)) {
    return fail('value', 'plane stress requires pushes longer than 0 mm');
  }
  const extent = size(question.contours);
  if (!(extent > 0)) return fail('empty', 'profile has no material');

  const scale = ofThickness / 0.35;
  const mesh = profileMesh(question.contours, {
    ofThickness,
    turn: 0.3 * Math.min(2, scale),
    growth: 0.5,
    smallest: 0.02 * scale,
    largest: extent * 0.2 * scale,
    at: prescribed.map(({ at }) => ({ at, size: 2 * patch * scale })),
  });
  if (mesh === null) return fail('mesh', 'profile encloses no area, or its contours cross');

  const nodeCount = mesh.nodes.length / 2;
  const held = new Uint8Array(nodeCount);
  for (let i = 0; i < nodeCount; i++) held[i] = fixed([mesh.nodes[2 * i]!, mesh.nodes[2 * i + 1]!]) ? 1 : 0;
  const hanging = notHeld(mesh, held);
  if (hanging.every((h) => h === 1)) return fail('not-held', 'profile is held nowhere');

  const loads = prescribed.map((push) => patchLoad(mesh, push, patch));
  for (const [i, load] of loads.entries()) {
    const { at } = prescribed[i]!;
    if (load === null) {
      return fail(
        'push-off-profile',
        `push ${i} at (${at[0]}, ${at[1]}) lies off the boundary, ${ON_BOUNDARY} mm allowed`,
      );
    }
    if ([...load.keys()].some((node) => hanging[node])) {
      return fail('push-not-held', `push ${i} at (${at[0]}, ${at[1]}) is on a piece that is held nowhere`);
    }
  }

  const still = held.map((h, i) => (h || hanging[i] ? 1 : 0));
  const system = assemble(mesh, still, modulus, poisson);
  if (system === null) return fail('mesh', 'profile gives a mesh with an element turned inside out');
  if (!factorise(system.matrix)) return fail('not-held', 'profile is held in too few points to stand still');

  // Movement of the whole for a force of 1 N per mm on each push alone.
  const unitMoves = prescribed.map(({ by }, i) => {
    const length = Math.hypot(by[0], by[1]);
    const move = new Float64Array(system.size);
    for (const [node, share] of loads[i]!) {
      const dof = system.dof[node]!;
      if (dof < 0) continue;
      move[dof] = (share * by[0]) / length;
      move[dof + 1] = (share * by[1]) / length;
    }
    const force = move.slice();
    solveFactorised(system.matrix, move);
    return { force, move, length };
  });
  const flexibility = unitMoves.map((i) => unitMoves.map((j) => dotProduct(i.force, j.move)));
  const stiffness = inverse(flexibility);
  if (stiffness === null) return fail('value', 'pushes share one place and direction, or push what is held');
  const forces = stiffness.map((row) => row.reduce((sum, k, j) => sum + k * unitMoves[j]!.length, 0));

  const displacement = new Float64Array(2 * nodeCount);
  for (let node = 0; node < nodeCount; node++) {
    const dof = system.dof[node]!;
    if (dof < 0) continue;
    for (let c = 0; c < 2; c++) {
      let sum = 0;
      for (let i = 0; i < forces.length; i++) sum += forces[i]! * unitMoves[i]!.move[dof + c]!;
      displacement[2 * node + c] = sum;
    }
  }
  const principal = nodalPrincipalStrains(mesh, displacement);
  const counts = countingNodes(mesh, held, prescribed, strainAway, sampling);
  const nodalStrain = new Float64Array(nodeCount);
  let most = -1;
  let least = -1;
  for (let i = 0; i < nodeCount; i++) {
    const [major, minor] = [principal[2 * i]!, principal[2 * i + 1]!];
    nodalStrain[i] = Math.abs(minor) > Math.abs(major) ? minor : major;
    if (!counts[i] || hanging[i]) continue;
    if (most < 0 || major > principal[2 * most]!) most = i;
    if (least < 0 || minor < principal[2 * least + 1]!) least = i;
  }
  if (most < 0) return fail('value', 'strainAway and sampling leave no place to look for strain');
  const at = (node: number): Vec2 => [mesh.nodes[2 * node]!, mesh.nodes[2 * node + 1]!];
  const tension = { strain: Math.max(0, principal[2 * most]!), at: at(most) };
  const compression = { strain: Math.max(0, -principal[2 * least + 1]!), at: at(least) };
  const pulled = tension.strain >= compression.strain;
  return {
    ok: true,
    peakStrain: pulled ? tension.strain : compression.strain,
    peakAt: pulled ? tension.at : compression.at,
    peakSign: pulled ? 'tension' : 'compression',
    tension,
    compression,
    forces,
    stiffness,
    nodes: mesh.nodes,
    triangles: mesh.triangles,
    nodalStrain,
    displacement,
  };
}

const fail = (kind: PlaneStressProblem['kind'], sentence: string): PlaneStressResult => ({
  ok: false,
  problem: { kind, sentence },
});

function size(contours: readonly Contour[]): number {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const p of contours.flat()) {
    [x0, y0, x1, y1] = [Math.min(x0, p[0]), Math.min(y0, p[1]), Math.max(x1, p[0]), Math.max(y1, p[1])];
  }
  return Math.max(x1 - x0, y1 - y0);
}

/** Marks the nodes of pieces of the mesh with less than two held nodes. */
function notHeld(mesh: ProfileMesh, held: Uint8Array): Uint8Array {
  const parent = Int32Array.from(held, (_, i) => i);
  const rootOf = (i: number): number => {
    let root = i;
    while (parent[root] !== root) root = parent[root]!;
    for (let k = i; parent[k] !== root; ) {
      const next = parent[k]!;
      parent[k] = root;
      k = next;
    }
    return root;
  };
  for (let t = 0; t < mesh.triangles.length; t += 6) {
    for (let k = 1; k < 6; k++) parent[rootOf(mesh.triangles[t + k]!)] = rootOf(mesh.triangles[t]!);
  }
  const count = new Int32Array(held.length);
  for (let i = 0; i < held.length; i++) if (held[i]) count[rootOf(i)] = count[rootOf(i)]! + 1;
  return Uint8Array.from(held, (_, i) => (count[rootOf(i)]! < 2 ? 1 : 0));
}

/** Shares of a push among nodes, adding up to 1: a pressure over `patch` each way along the boundary that falls
 *  linearly to 0, and its consistent nodal forces. `null` when the push is not at the boundary. */
function patchLoad(mesh: ProfileMesh, push: Push, patch: number): Map<number, number> | null {
  const [x, y] = push.at;
  const share = new Map<number, number>();
  let nearest = Infinity;
  let total = 0;
  const parts = 16;
  for (let e = 0; e < mesh.boundary.length; e += 3) {
    const [a, b, m] = [mesh.boundary[e]!, mesh.boundary[e + 1]!, mesh.boundary[e + 2]!];
    const [ax, ay, bx, by] = [
      mesh.nodes[2 * a]!,
      mesh.nodes[2 * a + 1]!,
      mesh.nodes[2 * b]!,
      mesh.nodes[2 * b + 1]!,
    ];
    const length = Math.hypot(bx - ax, by - ay);
    const reach = Math.hypot((ax + bx) / 2 - x, (ay + by) / 2 - y);
    if (reach > length + patch + ON_BOUNDARY) continue;
    for (let k = 0; k < parts; k++) {
      const u = (k + 0.5) / parts;
      const na = (1 - u) * (1 - 2 * u);
      const nb = u * (2 * u - 1);
      const nm = 4 * u * (1 - u);
      const px = na * ax + nb * bx + nm * mesh.nodes[2 * m]!;
      const py = na * ay + nb * by + nm * mesh.nodes[2 * m + 1]!;
      const d = Math.hypot(px - x, py - y);
      nearest = Math.min(nearest, d - length / parts / 2);
      const weight = Math.max(0, 1 - d / Math.max(patch, length / parts)) * length;
      if (weight === 0) continue;
      total += weight;
      for (const [node, n] of [
        [a, na],
        [b, nb],
        [m, nm],
      ] as const) {
        share.set(node, (share.get(node) ?? 0) + weight * n);
      }
    }
  }
  if (nearest > ON_BOUNDARY || total === 0) return null;
  for (const [node, w] of share) share.set(node, w / total);
  return share;
}

/** Marks the nodes whose strain counts for the peak. */
function countingNodes(
  mesh: ProfileMesh,
  held: Uint8Array,
  pushes: readonly Push[],
  strainAway: number,
  sampling: number,
): Uint8Array {
  const keepOff: { x: number; y: number; r: number }[] = pushes.map(({ at }) => ({
    x: at[0],
    y: at[1],
    r: strainAway,
  }));
  for (const { at, turn } of mesh.corners) if (turn < 0) keepOff.push({ x: at[0], y: at[1], r: sampling });
  for (let e = 0; e < mesh.boundary.length; e += 3) {
    const [a, b] = [mesh.boundary[e]!, mesh.boundary[e + 1]!];
    if (held[a] === held[b]) continue;
    const end = held[a] ? a : b;
    keepOff.push({ x: mesh.nodes[2 * end]!, y: mesh.nodes[2 * end + 1]!, r: sampling });
  }
  return Uint8Array.from(held, (_, i) => {
    const [x, y] = [mesh.nodes[2 * i]!, mesh.nodes[2 * i + 1]!];
    return keepOff.some((k) => (k.x - x) ** 2 + (k.y - y) ** 2 < k.r * k.r) ? 0 : 1;
  });
}

function dotProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Inverse of a small symmetric positive definite matrix by Gauss-Jordan; `null` when there is none. */
function inverse(matrix: readonly (readonly number[])[]): number[][] | null {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    const pivot = rows[i]![i]!;
    if (!(pivot > 1e-12 * matrix[i]![i]!)) return null;
    rows[i] = rows[i]!.map((v) => v / pivot);
    for (let k = 0; k < n; k++) {
      if (k === i) continue;
      const factor = rows[k]![i]!;
      rows[k] = rows[k]!.map((v, j) => v - factor * rows[i]![j]!);
    }
  }
  return rows.map((row) => row.slice(n));
}
