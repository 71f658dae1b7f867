// What is printed without enough below it, against sections of the written file and distances in their planes.
//
// Three claims. Where the finding names a place, the layer below lies as far away there as it says, or further where a bridge
// beside it carries. Where it says that all prints clean, no point of any layer lies further from the layer below than the
// printer's angle lets it, twice as far past a corner, whose two sides are allowed what they are. And where a bridge is named,
// strands in some direction cross the open there over the length it gives, and none is shorter than what carries them allows.
import { expect } from 'vitest';
import type { Vec2 } from '../../../src/solid/vector.ts';
import type { Judged } from './drawnJobs.ts';
import { middles } from './walls.ts';
import { inSection, nearestSide, type Side, sectionOf } from './writtenPart.ts';

/** The finding says nothing of less than this, mm, for facets and rounding are worth that much. */
const SLIVER = 0.02;
/** Specks below 0.01 mm2 are passed over, and what lies in them with them, mm: a strip of that area 1 mm long. */
const SPECK = 0.012;
const NEAR = 2e-3;

export const seen = { clean: 0, hanging: 0, bridged: 0, points: 0, worst: 0 };

interface Pair {
  readonly k: number;
  readonly z: number;
  readonly bottom: number;
  readonly below: readonly Side[];
  readonly layer: readonly Side[];
  readonly rise: number;
}

function* pairs({ written, prepared }: Judged): Generator<Pair> {
  const { firstLayer, layer } = prepared.printer;
  const heights = middles(written, firstLayer, layer);
  for (let k = 1; k < heights.length; k++) {
    const [low, z] = [heights[k - 1]!, heights[k]!];
    yield {
      k,
      z,
      bottom: firstLayer + (k - 1) * layer,
      below: sectionOf(written, low),
      layer: sectionOf(written, z),
      rise: z - low,
    };
  }
}

/** How far points of a layer's outline lie from the layer below, those that lie past it. */
function reaches({ layer, below }: Pair): { reach: number; corner: boolean }[] {
  return layer.flatMap(({ a, b }) =>
    [a, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as Vec2].flatMap((p) => {
      seen.points++;
      if (inSection(below, p)) return [];
      const { distance, corner } = nearestSide(below, p);
      return distance > NEAR ? [{ reach: distance, corner }] : [];
    }),
  );
}

/** Length of the straight way through a point past all material below, in a direction. */
function openWay(below: readonly Side[], [x, y]: Vec2, angle: number): number {
  const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
  let [ahead, behind] = [Infinity, Infinity];
  for (const { a, b } of below) {
    const [p, q] = [ux * (a[1] - y) - uy * (a[0] - x), ux * (b[1] - y) - uy * (b[0] - x)];
    if (p > 0 === q > 0) continue;
    const t = p / (p - q);
    const way = ux * (a[0] + t * (b[0] - a[0]) - x) + uy * (a[1] + t * (b[1] - a[1]) - y);
    if (way >= 0) ahead = Math.min(ahead, way);
    else behind = Math.min(behind, -way);
  }
  return ahead + behind;
}

/** The part hangs over as far as the findings say. */
export function expectUnderneath(judged: Judged): void {
  const { finding, prepared } = judged;
  const { overhang: angle, firstLayerSpread } = prepared.printer;
  const spreadAt = (k: number): number => (k === 1 ? Math.max(0, firstLayerSpread.value) : 0);
  const [overhang, bridge] = [finding('overhang')!, finding('bridge')!];
  const pairsOf = [...pairs(judged)];
  const pairAt = (z: number) => pairsOf.find(({ bottom }) => Math.abs(bottom - z) < 1e-6)!;
  const beyond = Number(overhang.details?.['places beyond the limit'] ?? 0);

  if (overhang.at !== null) {
    const pair = pairAt(overhang.at[2]);
    const p: Vec2 = [overhang.at[0], overhang.at[1]];
    const away = nearestSide(pair.below, p).distance;
    const said = overhang.value! + spreadAt(pair.k);
    const allowed = pair.rise * Math.tan((angle * Math.PI) / 180);
    expect(overhang.limit!).toBeCloseTo(allowed, 6);
    expect(inSection(pair.below, p)).toBe(false);
    if (pair.below.length > 0) {
      expect(away).toBeGreaterThan(said - NEAR);
      if (bridge.value === 0) {
        seen.worst = Math.max(seen.worst, Math.abs(away - said));
        expect(Math.abs(away - said)).toBeLessThan(NEAR);
      }
    }
    if (beyond > 0) seen.hanging++;
  }
  if (beyond === 0 && bridge.value === 0) {
    seen.clean++;
    expect(overhang.verdict).toBe('holds');
    for (const pair of pairsOf) {
      const allowed = pair.rise * Math.tan((angle * Math.PI) / 180) + spreadAt(pair.k) + SLIVER + SPECK;
      for (const { reach, corner } of reaches(pair))
        expect(reach, `layer at ${pair.z.toFixed(2)}`).toBeLessThan((corner ? 2 : 1) * allowed + NEAR);
    }
  }
  if (bridge.at !== null) {
    seen.bridged++;
    const pair = pairAt(bridge.at[2]);
    const p: Vec2 = [bridge.at[0], bridge.at[1]];
    expect(inSection(pair.layer, p)).toBe(true);
    expect(inSection(pair.below, p)).toBe(false);
    const ways = Array.from({ length: 360 }, (_, k) => openWay(pair.below, p, (k * Math.PI) / 360));
    const shortest = Math.min(...ways);
    // What carries is reckoned to reach `allowed` past its edge square to it, which across a strand that meets the edge
    // askew is a little more.
    expect(shortest, 'bridge').toBeLessThan(bridge.value! + 0.05 + spreadAt(pair.k) * 2);
    const nearest = ways.reduce((a, b) =>
      Math.abs(b - bridge.value!) < Math.abs(a - bridge.value!) ? b : a,
    );
    expect(Math.abs(nearest - bridge.value!), 'bridge').toBeLessThan(0.1 + 2 * spreadAt(pair.k));
  }
}
