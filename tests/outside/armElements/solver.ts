// Bodies drawn and meshed by gmsh, solved by CalculiX: second-order triangles in plane stress, second-order tetrahedra.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { calculixResults } from '../calculixResults.ts';

export type Point = readonly [number, number, number];

/** A body with what holds and what pushes it. Lengths mm, forces N, moduli MPa. */
export interface Body {
  /** Geometry with mesh fields, as gmsh reads it; the body is its physical group "body". */
  readonly geometry: string;
  readonly dimension: 2 | 3;
  readonly modulus: number;
  readonly poisson: number;
  /** Thickness of a plane body. */
  readonly depth: number;
  /** Degrees of freedom held, 1 to 3, by place. */
  readonly held: readonly { readonly where: (p: Point) => boolean; readonly along: readonly (1 | 2 | 3)[] }[];
  /** Faces (edges of a plane body) that carry the load, spread evenly, and its direction, of unit length. */
  readonly loaded: (p: Point) => boolean;
  readonly way: Point;
}

export interface Solved {
  readonly nodes: number;
  /** Mean movement of the loaded faces along the load for 1 N in all. */
  readonly give: number;
  /** Nodes with their strain for 1 N: xx, yy, zz, xy, yz, zx, tensor shear. */
  readonly strains: readonly { readonly at: Point; readonly strain: readonly number[] }[];
}

interface Mesh {
  readonly at: Map<number, Point>;
  readonly elements: readonly number[][];
}

export function solve(body: Body): Solved {
  const dir = mkdtempSync(join(tmpdir(), 'arm-elements-'));
  try {
    writeFileSync(join(dir, 'body.geo'), body.geometry);
    execFileSync('gmsh', [`-${body.dimension}`, '-format', 'inp', '-o', 'mesh.inp', 'body.geo'], {
      cwd: dir,
      stdio: 'pipe',
    });
    const mesh = readMesh(join(dir, 'mesh.inp'), body.dimension);
    const weights = loadShares(mesh, body);
    writeFileSync(join(dir, 'job.inp'), deck(mesh, body, weights));
    execFileSync('ccx', ['job'], { cwd: dir, stdio: 'pipe', env: { ...process.env, OMP_NUM_THREADS: '1' } });
    const { DISP, TOSTRAIN } = calculixResults(join(dir, 'job.frd'));
    const give = [...weights].reduce((sum, [id, share]) => {
      const u = DISP.get(id)!;
      return sum + share * (u[0]! * body.way[0] + u[1]! * body.way[1] + (u[2] ?? 0) * body.way[2]);
    }, 0);
    const strains = [...mesh.at].map(([id, at]) => ({ at, strain: TOSTRAIN.get(id)! }));
    return { nodes: mesh.at.size, give, strains: strains.filter(({ strain }) => strain !== undefined) };
  } finally {
    rmSync(dir, { recursive: true });
  }
}

function readMesh(path: string, dimension: 2 | 3): Mesh {
  const at = new Map<number, Point>();
  const elements: number[][] = [];
  const [type, size] = dimension === 2 ? ['CPS6', 6] : ['C3D10', 10];
  let section = '';
  for (const line of readFileSync(path, 'utf8').split('\n')) {
    if (line.startsWith('*')) section = line;
    else if (section.startsWith('*NODE')) {
      const [id, x, y, z] = line.split(',').map(Number);
      if (id) at.set(id, [x!, y!, z!]);
    } else if (section.includes(`type=${type}`)) {
      const ids = line.split(',').map(Number);
      if (ids.length === size + 1) elements.push(ids.slice(1));
    }
  }
  if (elements.length === 0) throw new Error('gmsh made no elements of that kind');
  const used = new Set(elements.flat());
  for (const id of [...at.keys()]) if (!used.has(id)) at.delete(id);
  return { at, elements };
}

/** Faces of tetrahedra and edges of triangles: corners, then the nodes in the middle of their edges. */
const FACES = [
  [0, 1, 2, 4, 5, 6],
  [0, 1, 3, 4, 8, 7],
  [1, 2, 3, 5, 9, 8],
  [2, 0, 3, 6, 7, 9],
] as const;
const EDGES = [
  [0, 1, 3],
  [1, 2, 4],
  [2, 0, 5],
] as const;

/** What part of the load each node takes, so that it is spread evenly: of a straight triangle's face the middle nodes take
 *  a third each and the corners nothing, of a straight edge the ends a sixth and the middle two thirds. */
function loadShares({ at, elements }: Mesh, { dimension, loaded }: Body): Map<number, number> {
  const share = new Map<number, number>();
  const give = (id: number, by: number) => share.set(id, (share.get(id) ?? 0) + by);
  let whole = 0;
  for (const element of elements)
    for (const local of dimension === 3 ? FACES : EDGES) {
      const ids = local.map((k) => element[k]!);
      if (!ids.every((id) => loaded(at.get(id)!))) continue;
      const [a, b, c] = ids.map((id) => at.get(id)!) as [Point, Point, Point];
      const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
      if (dimension === 2) {
        const long = Math.hypot(u[0]!, u[1]!);
        whole += long;
        give(ids[0]!, long / 6);
        give(ids[1]!, long / 6);
        give(ids[2]!, (2 * long) / 3);
      } else {
        const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
        const area =
          Math.hypot(
            u[1]! * v[2]! - u[2]! * v[1]!,
            u[2]! * v[0]! - u[0]! * v[2]!,
            u[0]! * v[1]! - u[1]! * v[0]!,
          ) / 2;
        whole += area;
        for (const id of ids.slice(3)) give(id, area / 3);
      }
    }
  if (whole === 0) throw new Error('nothing is loaded');
  return new Map([...share].map(([id, by]) => [id, by / whole]));
}

function deck({ at, elements }: Mesh, body: Body, weights: Map<number, number>): string {
  const { dimension, depth, modulus, poisson, held, way } = body;
  const boundary = held.flatMap(({ where, along }) =>
    [...at].flatMap(([id, p]) => (where(p) ? along.map((k) => `${id}, ${k}, ${k}, 0.`) : [])),
  );
  if (boundary.length === 0) throw new Error('nothing is held');
  // A plane body of CalculiX is a slice; a thin one, whose faces bend as they like, is loaded by its share of 1 N.
  const whole = dimension === 2 ? depth : 1;
  const loads = [...weights].flatMap(([id, share]) =>
    way.flatMap((by, k) => (by === 0 ? [] : [`${id}, ${k + 1}, ${(share * by * whole).toPrecision(12)}`])),
  );
  return `${[
    '*NODE, NSET=ALL',
    ...[...at].map(([id, p]) => `${id}, ${p.join(', ')}`),
    `*ELEMENT, TYPE=${dimension === 2 ? 'CPS6' : 'C3D10'}, ELSET=BODY`,
    ...elements.map((e, k) => `${k + 1}, ${e.join(', ')}`),
    `*MATERIAL, NAME=M\n*ELASTIC\n${modulus}, ${poisson}`,
    dimension === 2
      ? `*SOLID SECTION, ELSET=BODY, MATERIAL=M\n${depth}`
      : '*SOLID SECTION, ELSET=BODY, MATERIAL=M',
    '*STEP\n*STATIC',
    '*BOUNDARY',
    ...boundary,
    '*CLOAD',
    ...loads,
    dimension === 2 ? '*NODE FILE, OUTPUT=2D\nU' : '*NODE FILE\nU',
    dimension === 2 ? '*EL FILE, OUTPUT=2D\nE' : '*EL FILE\nE',
    '*END STEP',
  ].join('\n')}\n`;
}
