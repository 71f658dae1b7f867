// Volume, mass, centre of gravity, hold on the bed and room on it against sums over the triangles of the written file.
import { expect } from 'vitest';
import type { Vec2 } from '../../../src/solid/vector.ts';
import type { Judged } from './drawnJobs.ts';
import { HAIR, middles } from './walls.ts';
import { areaOf, hits, massOfPart, sectionOf, type WrittenPart } from './writtenPart.ts';

/** Depth of a point within the convex outline of points: the least, over all directions, of how far the outline reaches past
 *  it. Directions a tenth of a degree apart meet the true least to 1 - cos(0.05 degrees) of the outline's width. */
function depthWithin(points: readonly Vec2[], [x, y]: Vec2): number {
  let least = Infinity;
  for (let k = 0; k < 3600; k++) {
    const [c, s] = [Math.cos((k * Math.PI) / 1800), Math.sin((k * Math.PI) / 1800)];
    let reach = -Infinity;
    for (const [u, v] of points) reach = Math.max(reach, (u - x) * c + (v - y) * s);
    least = Math.min(least, reach);
  }
  return least;
}

/** Volume by a sheaf of upright rays: how far each runs in plastic, on average, times the area of the box. They stand where
 *  multiples of the plastic number fall (M. Roberts's sequence, from memory): evenly, in line with no face and in no middle, where many triangles meet. */
function volumeByRays(part: WrittenPart, rays: number): number {
  const [w, d] = [part.high[0] - part.low[0], part.high[1] - part.low[1]];
  const PLASTIC = 1.3247179572447458;
  let sum = 0;
  for (let k = 0; k < rays; k++) {
    const [u, v] = [(0.372 + k / PLASTIC) % 1, (0.619 + k / PLASTIC ** 2) % 1];
    const from = [part.low[0] + u * w, part.low[1] + v * d, part.low[2] - 1] as const;
    for (const { distance, normal } of hits(part, from, [0, 0, 1])) sum += Math.sign(normal[2]) * distance;
  }
  return (sum * w * d) / rays;
}

export const worst = { volume: 0, rays: 0, contact: 0, tip: 0 };

/** The part weighs, stands and lies as the findings say. */
export function expectBedAndMass({ written, finding, prepared, result }: Judged): void {
  const { volume, centre } = massOfPart(written);
  const print = result.parts[0]!.print;
  const sound = finding('sound')!;
  expect(sound.verdict).toBe('holds');
  // 32-bit coordinates on both sides; the sums differ in their last digits.
  const apart = Math.abs(volume / Number(sound.details!['volume, mm3']) - 1);
  worst.volume = Math.max(worst.volume, apart);
  expect(apart).toBeLessThan(1e-5);
  expect(Math.abs(print.volume / volume - 1)).toBeLessThan(1e-5);
  expect(print.mass).toBeCloseTo((volume / 1000) * prepared.material.density.value, 3);
  // What so many rays tell of outlines and holes between them.
  const byRays = Math.abs(volumeByRays(written, 2500) / volume - 1);
  worst.rays = Math.max(worst.rays, byRays);
  expect(byRays).toBeLessThan(0.03);

  const { firstLayer, layer, bed } = prepared.printer;
  const first = sectionOf(written, firstLayer / 2 + HAIR);
  const contact = finding('contact')!;
  worst.contact = Math.max(worst.contact, Math.abs(areaOf(first) - contact.value!) / contact.value!);
  // The finding's section leaves out what lies within 1e-6 mm of straight.
  expect(Math.abs(areaOf(first) - contact.value!)).toBeLessThan(1e-4 * contact.value! + 1e-4);

  const tip = finding('tip')!;
  for (const k of [0, 1, 2]) expect(tip.at![k]!).toBeCloseTo(centre[k]!, 3);
  const depth = depthWithin(
    first.flatMap(({ a, b }) => [a, b]),
    [centre[0], centre[1]],
  );
  const height = written.high[2];
  worst.tip = Math.max(worst.tip, Math.abs((2 * depth) / height - tip.value!));
  expect(Math.abs((2 * depth) / height - tip.value!)).toBeLessThan(1e-3);

  expect(written.low.every((x) => Math.abs(x) < 1e-5)).toBe(true);
  const extents = finding('bed')!.details!;
  (['x', 'y', 'z'] as const).forEach((axis, k) => {
    expect(Number(extents[`${axis}, mm`])).toBeCloseTo(written.high[k]!, 4);
  });
  const spare = (['x', 'y', 'z'] as const).map((axis, k) => bed[axis] - written.high[k]!);
  expect(finding('bed')!.margin!).toBeCloseTo(Math.min(...spare), 4);
  expect(print.layers).toBe(middles(written, firstLayer, layer).length);
}
