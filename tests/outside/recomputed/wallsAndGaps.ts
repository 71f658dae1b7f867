// Thinnest wall and narrowest gap against rays between the faces of the written file.
//
// Two claims of each finding. It is there: at the place it names, the nearest faces lie half of it away, on opposite sides.
// Nothing is narrower: wherever a ray from one face to the one opposite is shorter, the disc between the two is not whole, the
// walls lean apart from layer to layer by more than the finding's own rule lets them, or the place is the tip of a corner.
// Tolerance: the finding takes facets that a disc touches within 0.02 mm or a twentieth of its radius for touched.
import { expect } from 'vitest';
import type { Vec2 } from '../../../src/solid/vector.ts';
import type { Judged } from './drawnJobs.ts';
import { betweenWalls, HAIR, leansApart, middles, sharpCorners, type What } from './walls.ts';
import { nearestSide, sectionOf } from './writtenPart.ts';

const SPACING = 0.4;
/** mm. */
const NEAR = 0.02;
/** A tip may lose this much, mm, and two fifths more for what lies beside it. */
const TIP = 1.4;

export const seen = { there: 0, rays: 0, worst: 0 };

/** The faces around a place: the nearest is `half` away and so is one on the other side. */
function expectThere({ written }: Judged, at: readonly [number, number, number], half: number): void {
  const sides = sectionOf(written, at[2] + HAIR);
  const nearest = nearestSide(sides, [at[0], at[1]]);
  seen.worst = Math.max(seen.worst, Math.abs(nearest.distance - half));
  expect(Math.abs(nearest.distance - half)).toBeLessThan(1e-3);
  // Touched by a disc that is larger by so much and stands as much further off.
  const touched = half + 2 * Math.min(NEAR, 0.05 * half) + 1e-3;
  const ways = sides.flatMap((side) => {
    const { distance, at: p } = nearestSide([side], [at[0], at[1]]);
    return distance <= touched ? [Math.atan2(p[1] - at[1], p[0] - at[0])] : [];
  });
  // The finding asks for 135 degrees between two of them, seen from a disc that is larger by as much as what it takes for
  // touched; an outline without opposite sides gives its largest disc, which is held from all around.
  const sorted = ways.toSorted((u, v) => u - v);
  const gaps = sorted.map((u, k) => (sorted[k + 1] ?? sorted[0]! + 2 * Math.PI) - u);
  const apart = Math.max(
    ...ways.flatMap((u) => ways.map((v) => Math.abs(Math.atan2(Math.sin(u - v), Math.cos(u - v))))),
  );
  const heldAround = Math.max(...gaps) < Math.PI;
  expect(heldAround || apart > (127 * Math.PI) / 180).toBe(true);
  seen.there++;
}

function expectNothingNarrower(judged: Judged, what: What, value: number, spread: number): void {
  const { written, prepared } = judged;
  const { firstLayer, layer } = prepared.printer;
  const heights = middles(written, firstLayer, layer);
  // A layer out of every few, and all about the place where something is found narrower would be the same faces again.
  const step = Math.max(1, Math.floor(heights.length / 10));
  for (let k = 0; k < heights.length; k += k === 0 ? 1 : step) {
    const sides = sectionOf(written, heights[k]!);
    const corners = sharpCorners(sides, what);
    const inTip = ([x, y]: Vec2) => corners.some(([u, v]) => Math.hypot(u - x, v - y) < TIP);
    for (const place of betweenWalls(written, heights[k]!, what, SPACING)) {
      seen.rays++;
      const width = place.width + (k === 0 ? spread : 0);
      if (width > value - NEAR) continue;
      const excused =
        [heights[k - 1], heights[k + 1]].some(
          (next) => next !== undefined && leansApart(written, place, what, next),
        ) || inTip([place.at[0], place.at[1]]);
      expect(
        excused,
        `${what} ${width.toFixed(4)} below ${value.toFixed(4)} at ${place.at.map((x) => x.toFixed(3))}`,
      ).toBe(true);
    }
  }
}

/** Walls are as thin, and gaps as narrow, as the findings say. */
export function expectWallsAndGaps(judged: Judged): void {
  const { finding, prepared } = judged;
  const spread = 2 * prepared.printer.firstLayerSpread.value;
  const wall = finding('wall')!;
  if (wall.value !== null && wall.at !== null) {
    const first = wall.at[2] < prepared.printer.firstLayer;
    expectThere(judged, wall.at, (wall.value - (first ? spread : 0)) / 2);
    expectNothingNarrower(judged, 'wall', wall.value, spread);
  }
  const gap = finding('gap')!;
  if (gap.value !== null && gap.at !== null) {
    expectThere(judged, gap.at, gap.value / 2);
    expectNothingNarrower(judged, 'gap', gap.value, 0);
  } else expectNothingNarrower(judged, 'gap', Infinity, 0);
}
