import type { Manifold, ManifoldToplevel, Scope } from '../../solid/kernel.ts';
import { withScope } from '../../solid/kernel.ts';
import { meshOf } from '../../solid/meshOf.ts';
import { soundnessOf } from '../../solid/soundness.ts';
import type { DonorMesh } from '../types.ts';
import type { LocatedWall } from './locateWall.ts';
import type { Surface } from './surfaceOf.ts';
import type { WallSurroundings } from './wallSurroundings.ts';

/** Facets of a new wall where the old one has fewer. */
const LEAST_FACETS = 48;
/** How far a tool reaches past a surface it has to cut or fill, in radii. */
const PAST = 1e-3;

/** The mesh with a bore or post brought to a radius by drilling, lining, turning down or sleeving: for walls that cannot just be moved.
 *  `radius`: of the circle inside a bore's facets, outside a post's. Undefined where the result is not one closed piece with as many holes
 *  as before. Vertices away from the wall keep their numbers to the last bit. */
export function cutWall(
  kernel: ManifoldToplevel,
  surface: Surface,
  wall: LocatedWall,
  around: WallSurroundings,
  kind: 'bore' | 'post',
  radius: number,
): DonorMesh | undefined {
  const { positions, triangles } = surface.mesh;
  return withScope(kernel, (scope) => {
    const given = solidFrom(scope, positions, triangles);
    if (given === undefined) return undefined;
    const n = Math.max(LEAST_FACETS, 4 * Math.ceil(wall.facets / 4));
    // Rounding to 32 bits must not take the facets inside a shaft, or the corners outside a hole.
    const margin = 2e-7 * greatest(positions);
    const grows = radius > (kind === 'bore' ? wall.inner : wall.outer);
    const corner = kind === 'bore' ? (radius + margin) / Math.cos(Math.PI / n) : radius - margin;
    const [low, high] = reach(surface, wall, around, Math.abs(corner - wall.cylinder.radius), kind, grows);
    const tool = (from: number, to: number, r: number): Manifold | undefined =>
      prism(scope, around, n, from, to, r);
    const past = PAST * wall.cylinder.radius;
    let result: Manifold | undefined;
    if (kind === 'bore' && grows) {
      const drill = tool(low, high, corner);
      result = drill && scope.keep(given.subtract(drill));
    } else if (kind === 'bore') {
      const plug = tool(...around.whole, wall.outer + past);
      const drill = tool(around.whole[0] - past, around.whole[1] + past, corner);
      result = plug && drill && scope.keep(given.add(scope.keep(plug.subtract(drill))));
    } else if (grows) {
      const sleeve = tool(low, high, corner);
      const core = tool(low - past, high + past, wall.inner - past);
      result = sleeve && core && scope.keep(given.add(scope.keep(sleeve.subtract(core))));
    } else {
      const shell = tool(low, high, wall.outer + past);
      const core = tool(low - past, high + past, corner);
      result = shell && core && scope.keep(given.subtract(scope.keep(shell.subtract(core))));
    }
    if (result === undefined || result.status() !== 'NoError' || result.isEmpty()) return undefined;
    if (result.genus() !== given.genus()) return undefined;
    const pieces = (solid: Manifold) => scope.keepAll(solid.decompose()).length;
    if (pieces(result) !== pieces(given)) return undefined;
    const mesh = meshOf(result);
    const { openEdges, crowdedEdges, flatTriangles } = soundnessOf(mesh);
    if (openEdges + crowdedEdges + flatTriangles > 0) return undefined;
    return { positions: sharpened(mesh.positions, positions), triangles: mesh.triangles };
  });
}

/** From where to where along the axis the tool works. */
function reach(
  { mesh, mates, normals }: Surface,
  wall: LocatedWall,
  { frame, role, whole }: WallSurroundings,
  change: number,
  kind: 'bore' | 'post',
  grows: boolean,
): [number, number] {
  const past = PAST * wall.cylinder.radius;
  // A slanted mouth is met later by a wider tool: by the steepest face around it.
  const slope = [0, 0];
  for (const t of wall.triangles) {
    for (let h = 3 * t; h < 3 * t + 3; h++) {
      const beyond = Math.floor(mates[h]! / 3);
      if (mates[h] === -1 || role[beyond] !== 2) continue;
      const n = frame.turned(normals[3 * beyond]!, normals[3 * beyond + 1]!, normals[3 * beyond + 2]!);
      const v = 3 * mesh.triangles[h]!;
      const s = frame.local(mesh.positions[v]!, mesh.positions[v + 1]!, mesh.positions[v + 2]!)[2];
      const end = s > (wall.from + wall.to) / 2 ? 1 : 0;
      const tangent = Math.hypot(n[0], n[1]) / Math.max(0.3, Math.abs(n[2]));
      slope[end] = Math.max(slope[end]!, tangent);
    }
  }
  const beyond = (end: 0 | 1): number => change * slope[end]! + past;
  const narrowing = wall.ends.map((end) => end.narrowing >= 0.5);
  const edge = (end: 0 | 1): number => {
    const sign = end === 0 ? -1 : 1;
    const tip = end === 0 ? wall.from : wall.to;
    // Bores stop at their floor, posts at their root.
    if (kind === 'bore') return narrowing[end] ? tip : tip + sign * beyond(end);
    if (grows) return narrowing[end] ? whole[end] : tip + sign * past;
    return narrowing[end] ? tip + sign * beyond(end) : tip;
  };
  return [edge(0), edge(1)];
}

/** A prism around the wall's axis, in the mesh's place. */
function prism(
  scope: Scope,
  { frame }: WallSurroundings,
  n: number,
  from: number,
  to: number,
  radius: number,
): Manifold | undefined {
  if (!(to > from && radius > 0)) return undefined;
  const positions = new Float64Array(6 * n);
  const triangles: number[] = [];
  for (let i = 0; i < n; i++) {
    const angle = (2 * Math.PI * i) / n;
    const [u, w] = [radius * Math.cos(angle), radius * Math.sin(angle)];
    positions.set(frame.world(u, w, from), 3 * i);
    positions.set(frame.world(u, w, to), 3 * (n + i));
    const j = (i + 1) % n;
    triangles.push(i, j, n + j, i, n + j, n + i);
    if (i > 1) triangles.push(0, i, i - 1, n, n + i - 1, n + i);
  }
  return solidFrom(scope, positions, Uint32Array.from(triangles));
}

function solidFrom(scope: Scope, positions: Float64Array, triangles: Uint32Array): Manifold | undefined {
  const mesh = new scope.kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(positions),
    triVerts: triangles.slice(),
  });
  try {
    const solid = scope.keep(new scope.kernel.Manifold(mesh));
    return solid.status() === 'NoError' ? solid : undefined;
  } catch (error) {
    if (error instanceof Error && error.name === 'ManifoldError') return undefined;
    throw error;
  }
}

/** Positions in 32 bits, with those that stand for a known one in 64 bits replaced by it. */
function sharpened(rounded: Float32Array, known: Float64Array): Float64Array {
  const bits = (list: Float32Array) => new Int32Array(list.buffer, list.byteOffset, list.length);
  const [is, was] = [bits(rounded), bits(Float32Array.from(known))];
  const slots = 2 ** Math.ceil(Math.log2(Math.max(4, known.length)));
  const table = new Int32Array(slots).fill(-1);
  const slotOf = (list: Int32Array, i: number): number => {
    const mixed =
      Math.imul(list[i]!, 0x9e3779b1) ^
      Math.imul(list[i + 1]!, 0x85ebca6b) ^
      Math.imul(list[i + 2]!, 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 15)) >>> 0) & (slots - 1);
  };
  const equal = (i: number, j: number): boolean =>
    is[i] === was[j] && is[i + 1] === was[j + 1] && is[i + 2] === was[j + 2];
  for (let i = 0; i < known.length; i += 3) {
    let slot = slotOf(was, i);
    while (table[slot] !== -1) slot = (slot + 1) & (slots - 1);
    table[slot] = i;
  }
  const found = Float64Array.from(rounded);
  for (let i = 0; i < rounded.length; i += 3) {
    for (let slot = slotOf(is, i); table[slot] !== -1; slot = (slot + 1) & (slots - 1)) {
      const j = table[slot]!;
      if (!equal(i, j)) continue;
      for (let k = 0; k < 3; k++) found[i + k] = known[j + k]!;
      break;
    }
  }
  return found;
}

const greatest = (p: Float64Array): number => p.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
