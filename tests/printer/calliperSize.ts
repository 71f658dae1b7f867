import type { Manifold } from '../../src/solid/kernel.ts';
import { sectionAt } from '../parts/measureInterface.ts';
import type { LaidFeature } from './laidFeature.ts';

/** Step between the lines tried, mm. */
const STEP = 0.01;

/** What callipers read at a feature of a solid, mm: in the section across its axis, the distance between the two walls
 *  that face each other across the middle, in material or in the open. `reach` is how far from the middle line, either
 *  way, the jaws look for the widest place. NaN when the middle is not where it should be. */
export function calliperSize(
  solid: Manifold,
  where: LaidFeature['where'],
  inside: 'material' | 'open',
  reach: number,
): number {
  const outlines = sectionAt(solid, where);
  const lines = Math.round(reach / STEP);
  const sizes = Array.from({ length: 2 * lines + 1 }, (_, k) => {
    const beside = (k - lines) * STEP;
    const walls: number[] = [];
    for (const outline of outlines) {
      outline.forEach((p, i) => {
        const q = outline[(i + 1) % outline.length]!;
        if (p[1] > beside !== q[1] > beside)
          walls.push(p[0] + ((beside - p[1]) / (q[1] - p[1])) * (q[0] - p[0]));
      });
    }
    const [left, right] = [walls.filter((x) => x < 0), walls.filter((x) => x >= 0)];
    if ((left.length % 2 === 1) !== (inside === 'material')) return Number.NaN;
    return Math.min(...right) - Math.max(...left);
  });
  return Math.max(...sizes.filter((size) => !Number.isNaN(size)), Number.NEGATIVE_INFINITY);
}
