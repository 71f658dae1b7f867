import type { DonorMesh } from '../types.ts';
import { pointOf, withTurned } from './geometry.ts';
import { nestingOf, type Shells } from './shells.ts';
import type { Step } from './step.ts';

/** Surfaces and triangles looked at for the question what lies in what. Beyond, a model is turned as a whole or not. */
const MOST_LOOKS = 2e8;

/** Turns surfaces that face inward and lie in no other: an outermost surface faces out. What lies inside one that was
 *  drawn inside out is turned with it, so a hollow stays a hollow. */
export function turnOutward(mesh: DonorMesh, shells: Shells): Step {
  const { volumes, of } = shells;
  const inward = [...volumes.keys()].filter((s) => volumes[s]! < 0);
  if (inward.length === 0) return { mesh, count: 0, at: null };
  const turned = turnedShells(mesh, shells, inward);
  if (turned.size === 0) return { mesh, count: 0, at: null };
  return {
    mesh: withTurned(mesh, (t) => turned.has(of[t]!)),
    count: turned.size,
    at: pointOf(mesh, mesh.triangles[3 * of.findIndex((s) => turned.has(s))]!),
  };
}

function turnedShells(mesh: DonorMesh, shells: Shells, inward: readonly number[]): ReadonlySet<number> {
  const { volumes, triangles } = shells;
  const all = [...volumes.keys()];
  if (inward.length === 1 && all.length === 1) return new Set(all);
  let looks = all.length * all.length;
  const nesting = looks > MOST_LOOKS ? null : nestingOf(mesh, shells);
  const around = nesting === null ? [] : all.map(nesting.around);
  for (const outers of around) for (const s of outers) looks += triangles[s]!;
  if (nesting === null || looks > MOST_LOOKS)
    return new Set(volumes.reduce((sum, volume) => sum + volume, 0) < 0 ? all : []);
  const outermost = new Set(inward.filter((s) => !around[s]!.some((outer) => nesting.within(s, outer))));
  const inside = all.filter((s) =>
    around[s]!.some((outer) => outermost.has(outer) && nesting.within(s, outer)),
  );
  return new Set([...outermost, ...inside]);
}
