import { formatNumber } from '../units/index.ts';
import type { Mesh } from './mesh.ts';
import { firstOfEach, isFlat } from './withoutFlats.ts';

/** What is wrong with a mesh, if anything, counted on its own and not taken from the library that made it. */
export interface Soundness {
  readonly triangles: number;
  /** Pieces that do not hang together, and closed hollows inside them. */
  readonly bodies: number;
  readonly cavities: number;
  /** Edges with a triangle on one side only. */
  readonly openEdges: number;
  /** Edges at which more than two triangles meet, or two that face opposite ways. */
  readonly crowdedEdges: number;
  /** Triangles without area: two corners in one place, or all three on a line. */
  readonly flatTriangles: number;
  /** Holes through the part, all bodies together; null while edges are open or crowded. */
  readonly genus: number | null;
  /** mm^3; negative when the triangles face inward. */
  readonly volume: number;
  /** Every coordinate is a number. */
  readonly finite: boolean;
}

/** Looks a mesh over the way a reader of the STL file has to: vertices are the same only where their 32-bit
 *  coordinates are. Closed, facing outward, one edge between two triangles each, pieces, holes, volume.
 *  Units mm. Nothing is repaired.
 *  @example soundnessOf(meshOf(cube)).genus // => 0 */
export function soundnessOf(mesh: Mesh): Soundness {
  const { positions, triangles } = mesh;
  const finite = positions.every(Number.isFinite);
  const corner = firstOfEach(positions);
  const count = triangles.length / 3;

  const shell = Array.from({ length: count }, (_, t) => t);
  const rootOf = (t: number): number => {
    let root = t;
    while (shell[root] !== root) root = shell[root] = shell[shell[root]!]!;
    return root;
  };
  // Edges by their two corners, low first: how often run each way, and one triangle there.
  const edges = new Map<number, { up: number; down: number; triangle: number }>();
  const used = new Set<number>();
  let flatTriangles = 0;
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [
      corner[triangles[3 * t]!]!,
      corner[triangles[3 * t + 1]!]!,
      corner[triangles[3 * t + 2]!]!,
    ];
    if (isFlat(positions, a, b, c)) flatTriangles++;
    used.add(a).add(b).add(c);
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const key = Math.min(from, to) * positions.length + Math.max(from, to);
      const edge = edges.get(key) ?? { up: 0, down: 0, triangle: t };
      if (edge.triangle === t) edges.set(key, edge);
      else shell[rootOf(t)] = rootOf(edge.triangle);
      if (from < to) edge.up++;
      else edge.down++;
    }
  }

  let [openEdges, crowdedEdges] = [0, 0];
  for (const { up, down } of edges.values()) {
    if (up + down === 1) openEdges++;
    else if (up !== 1 || down !== 1) crowdedEdges++;
  }

  const volumes = new Map<number, number>();
  for (let t = 0; t < count; t++) {
    const root = rootOf(t);
    volumes.set(root, (volumes.get(root) ?? 0) + tetrahedron(positions, triangles, t));
  }
  const shells = [...volumes.values()];
  const cavities = shells.filter((volume) => volume < 0).length;
  const closed = openEdges === 0 && crowdedEdges === 0;
  return {
    triangles: count,
    // Inside out, a lone shell is still a body.
    bodies: shells.length === cavities ? shells.length : shells.length - cavities,
    cavities: shells.length === cavities ? 0 : cavities,
    openEdges,
    crowdedEdges,
    flatTriangles,
    // Euler: vertices - edges + triangles = 2 (shells - genus).
    genus: closed ? shells.length - (used.size - edges.size + count) / 2 : null,
    volume: shells.reduce((sum, volume) => sum + volume, 0),
    finite,
  };
}

/** Signed volume between a triangle and the origin, mm^3. */
function tetrahedron(p: Float32Array, triangles: Uint32Array, t: number): number {
  const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
  return (
    (p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) +
      p[a + 1]! * (p[b + 2]! * p[c]! - p[b]! * p[c + 2]!) +
      p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!)) /
    6
  );
}

/** Everything a mesh must be to be printed as one part; each fault as a clause for the bench. Empty when it is sound.
 *  `genus` is the number of holes the part should have; null when nobody knows. */
export function faultsOf(found: Soundness, genus: number | null): readonly string[] {
  const faults: string[] = [];
  if (found.triangles === 0) return ['there is nothing in it'];
  if (!found.finite) faults.push('a coordinate is not a number');
  if (found.openEdges > 0) faults.push(`the surface is open along ${counted(found.openEdges, 'edge')}`);
  if (found.crowdedEdges > 0)
    faults.push(`more than two faces meet, or two disagree, at ${counted(found.crowdedEdges, 'edge')}`);
  if (found.flatTriangles > 0)
    faults.push(`${counted(found.flatTriangles, 'triangle')} without area in the file`);
  if (!(found.volume > 0))
    faults.push(`it encloses ${formatNumber(found.volume)} mm3, so its faces look inward`);
  if (found.bodies > 1) faults.push(`it is ${found.bodies} loose pieces, not one`);
  if (genus !== null && found.genus !== null && found.genus !== genus)
    faults.push(`${counted(found.genus, 'hole')} through it where there should be ${genus}`);
  return faults;
}

/** A number of things in words: "1 edge", "3 edges". */
export const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
