import type { DonorMesh } from '../types.ts';
import { pointOf, withTurned } from './geometry.ts';
import { nesting, type Shells } from './shells.ts';
import type { Step } from './step.ts';

/** Triangles looked at for the question what lies in what; beyond, surfaces that face inward stay as they are drawn. */
const MOST_LOOKS = 2e8;

/** Turns surfaces that face inward and lie in no other: an outermost surface faces out. What lies inside one that was
 *  drawn inside out is turned with it, so a hollow stays a hollow. */
export function turnOutward(mesh: DonorMesh, shells: Shells): Step {
  const inward = [...shells.volumes.keys()].filter((s) => shells.volumes[s]! < 0);
  if (inward.length === 0 || inward.length * (mesh.triangles.length / 3) > MOST_LOOKS)
    return { mesh, count: 0, at: null };
  const within = nesting(mesh, shells);
  const all = [...shells.volumes.keys()];
  const outermost = inward.filter((s) => all.every((other) => other === s || !within(s, other)));
  if (outermost.length === 0) return { mesh, count: 0, at: null };
  const turned = new Set([...outermost, ...all.filter((s) => outermost.some((outer) => within(s, outer)))]);
  return {
    mesh: withTurned(mesh, (t) => turned.has(shells.of[t]!)),
    count: turned.size,
    at: pointOf(mesh, mesh.triangles[3 * shells.of.indexOf(outermost[0]!)]!),
  };
}
