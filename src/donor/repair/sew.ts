import { counted } from '../../solid/soundness.ts';
import { DonorRefusal, placeText } from '../donorRefusal.ts';
import type { DonorMesh, Repair, RepairKind } from '../types.ts';
import type { Welded } from '../weldCorners.ts';
import { dropDoubles } from './dropDoubles.ts';
import { dropFlats } from './dropFlats.ts';
import { extentOf, fillHoles, loopsOf, middleOfLoop } from './fillHoles.ts';
import { boxOf, middleOf, withoutLoose, withTriangles } from './geometry.ts';
import { joinOpenCorners } from './joinOpenCorners.ts';
import { type Pairing, pairingOf } from './pairing.ts';
import { crowdedRefusal, pairTouching } from './pairTouching.ts';
import { partFans } from './partFans.ts';
import { repair } from './repairSentence.ts';
import { shellsOf } from './shells.ts';
import { splitSeams } from './splitSeams.ts';
import type { Step } from './step.ts';
import { turnOutward } from './turnOutward.ts';
import { turnPatches } from './turnPatches.ts';

/** How far apart the two sides of a seam may lie, against the diagonal of the part: what 32-bit coordinates leave, and
 *  ten times that for files that were written with few digits. */
const TOLERANCES = [1e-6, 1e-5] as const;

/** With more open edges than this no seam is looked for: such a file is no surface with a flaw. */
const MOST_OPEN = 200_000;

export interface Sewn {
  /** Closed, oriented, outermost surfaces outward, one fan of triangles around each vertex. */
  readonly mesh: DonorMesh;
  readonly repairs: readonly Repair[];
}

/** Makes a sound mesh of a welded one, or refuses it. A mesh that is sound already goes through untouched. In turn:
 *  triangles written twice, faces that disagree, gaps and seams between open edges, small holes, bodies that touch,
 *  surfaces drawn inside out, triangles without height.
 *
 *  `cutShort` says why the file may lack triangles: then no hole is filled. Throws `donor_empty`, `donor_cut_short`,
 *  `donor_surface_open`, `donor_edges_crowded`, `donor_one_sided`, `donor_flat`. */
export function sew(welded: Welded, cutShort: string | null, onProgress?: (share: number) => void): Sewn {
  const repairs: Repair[] = [];
  const note = (kind: RepairKind, { count, at }: Pick<Step, 'count' | 'at'>): void => {
    if (count > 0) repairs.push(repair(kind, count, at));
  };
  note('numbers-missing', { count: welded.numbersMissing, at: null });
  note('collapsed-dropped', { count: welded.collapsed, at: null });
  let { mesh } = welded;
  if (mesh.triangles.length === 0)
    throw new DonorRefusal('donor_empty', 'no triangle with an area', 'a model with a surface');

  let pairing = pairingOf(mesh);
  onProgress?.(0.4);
  const take = (kind: RepairKind, step: Step): void => {
    note(kind, step);
    if (step.count === 0) return;
    mesh = step.mesh;
    pairing = pairingOf(mesh);
  };
  if (pairing.crowded.length > 0) take('doubles-dropped', dropDoubles(mesh, pairing));
  if (pairing.open.length > 0) {
    const closed = closeGaps(mesh, pairing);
    for (const [kind, step] of closed.steps) note(kind, step);
    ({ mesh, pairing } = closed);
  }
  take('faces-turned', turnPatches(mesh, pairing));
  if (pairing.open.length > 0 && cutShort === null && pairing.open.length <= MOST_OPEN)
    take('holes-filled', fillHoles(mesh, pairing));
  // A filling may join two patches that face opposite ways.
  take('faces-turned', turnPatches(mesh, pairing));
  if (pairing.open.length > 0) throw openRefusal(mesh, pairing, cutShort, welded.numbersMissing);
  onProgress?.(0.6);

  const { crowded } = pairing;
  if (crowded.length > 0) {
    const parted = withoutSkins(partFans(mesh, pairTouching(mesh, pairing)));
    note('touching-parted', { count: crowded.length, at: middleOf(mesh, crowded[0]![0]!) });
    note('skins-dropped', parted);
    ({ mesh } = parted);
    if (mesh.triangles.length === 0)
      throw new DonorRefusal('donor_flat', 'faces that enclose nothing', 'a body with a thickness');
    pairing = pairingOf(mesh);
    if (pairing.crowded.length > 0) throw crowdedRefusal(mesh, pairing.crowded);
    if (pairing.clashes > 0) mesh = turnPatches(mesh, pairing).mesh;
  } else mesh = partFans(mesh, pairing.mate);
  onProgress?.(0.7);
  const shells = shellsOf(mesh, pairing.mate);
  if (shells.volumes.every((volume) => volume === 0))
    throw new DonorRefusal('donor_flat', 'faces that enclose nothing', 'a body with a thickness');
  take('turned-outward', turnOutward(mesh, shells));
  note('flats-dropped', flattened());
  onProgress?.(1);
  return { mesh: withoutLoose(mesh), repairs };

  function flattened(): Step {
    const step = dropFlats(mesh, pairing.mate);
    ({ mesh } = step);
    return step;
  }
}

/** Joins corners and splits seams, from the finest tolerance up, until nothing is open; what does not close keeps the
 *  result of the finest, for holes to be filled or the refusal to tell. */
function closeGaps(
  mesh: DonorMesh,
  pairing: Pairing,
): { mesh: DonorMesh; pairing: Pairing; steps: readonly (readonly [RepairKind, Step])[] } {
  if (pairing.open.length > MOST_OPEN) return { mesh, pairing, steps: [] };
  const { diagonal } = boxOf(mesh);
  const tries = [];
  for (const share of TOLERANCES) {
    const joined = joinOpenCorners(mesh, pairing, share * diagonal);
    const split = splitSeams(joined.mesh, pairingOf(joined.mesh), share * diagonal);
    const found = pairingOf(split.mesh);
    const steps = [
      ['corners-joined', joined],
      ['seams-split', split],
    ] as const;
    tries.push({ mesh: split.mesh, pairing: found, steps });
    if (found.open.length === 0) return tries.at(-1)!;
  }
  return tries[0]!;
}

/** Takes out surfaces of two triangles, which lie on one another and enclose nothing. */
function withoutSkins(mesh: DonorMesh): Step {
  const { of, triangles } = shellsOf(mesh, pairingOf(mesh).mate);
  const skins = triangles.filter((size) => size === 2).length;
  if (skins === 0) return { mesh, count: 0, at: null };
  return {
    mesh: withTriangles(mesh, (t) => triangles[of[t]!] !== 2),
    count: skins,
    at: middleOf(mesh, 3 * of.findIndex((s) => triangles[s] === 2)),
  };
}

/** What is open, and where the largest hole is. */
function openRefusal(
  mesh: DonorMesh,
  { open }: Pairing,
  cutShort: string | null,
  numbersMissing: number,
): DonorRefusal {
  const loops = open.length > MOST_OPEN ? [] : loopsOf(mesh, open);
  let [largest, extent] = [loops[0], 0];
  for (const loop of loops) {
    const size = extentOf(mesh, loop);
    if (size > extent) [largest, extent] = [loop, size];
  }
  const at = largest === undefined ? middleOf(mesh, open[0]!) : middleOfLoop(mesh, largest);
  const why = [
    ...(cutShort === null ? [] : [cutShort]),
    ...(numbersMissing === 0 ? [] : [`${counted(numbersMissing, 'triangle')} without all its numbers`]),
  ];
  const holes =
    largest === undefined
      ? `one of them near ${placeText(at)}`
      : `${loops.length > 1 ? `${loops.length} holes, the largest` : 'one hole,'} ` +
        `${Number(extent.toPrecision(3))} across near ${placeText(at)}`;
  const opening = `the surface is open along ${counted(open.length, 'edge')}: ${holes}`;
  return new DonorRefusal(
    cutShort === null ? 'donor_surface_open' : 'donor_cut_short',
    [...why, opening].join('; '),
    cutShort === null ? 'a closed surface' : 'the whole file',
    at,
  );
}
