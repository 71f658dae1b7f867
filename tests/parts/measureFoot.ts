import type { ReportedInterface } from '../../src/job/result.ts';
import type { Manifold } from '../../src/solid/kernel.ts';
import type { Vec2 } from '../../src/solid/vector.ts';
import { sectionAt } from './measureInterface.ts';

type Where = Pick<ReportedInterface, 'id' | 'kind' | 'at' | 'axis' | 'across'>;

/** What callipers would find at each interface of a case foot, mm, by id, read off sections and rays of the solid;
 *  `drawn` and `predicted` are not looked at. `solid` is on the bed, as the interfaces are. A `sloping` floor has its
 *  height in its middle. */
export function measuredFoot(
  solid: Manifold,
  interfaces: readonly Where[],
  sloping: boolean,
): Record<string, number> {
  const height = sloping ? middleHeight : flatHeight;
  return Object.fromEntries(
    interfaces.map((one) => [one.id, one.kind === 'step' ? height(solid, one) : widthOf(solid, one)]),
  );
}

/** How far from where it should be a face is looked for, mm. */
const REACH = 0.45;
const ABOVE = 150;

/** Heights above the bed of the faces below a point that look up and lie near `z`. */
const facesNear = (solid: Manifold, x: number, y: number, z: number): number[] =>
  solid
    .rayCast([x, y, ABOVE], [x, y, -1])
    .filter(({ normal }) => normal[2] > 0.9)
    .map(({ distance }) => ABOVE - (ABOVE + 1) * distance)
    .filter((found) => Math.abs(found - z) < REACH);

const middleHeight = (solid: Manifold, { at }: Where): number =>
  facesNear(solid, at[0], at[1], at[2])[0] ?? Number.NaN;

/** From the bed to the face that looks up in most places around the middle, beside what stands on it or hollows it. */
function flatHeight(solid: Manifold, { at }: Where): number {
  const found = new Map<number, number>();
  for (let ring = 0.3; ring <= 35; ring += 0.37) {
    for (let k = 0; k < 8; k++) {
      // Off the axes and diagonals, where edges lie.
      const angle = 0.11 + (k * Math.PI) / 4;
      const [x, y] = [at[0] + ring * Math.cos(angle), at[1] + ring * Math.sin(angle)];
      for (const z of facesNear(solid, x, y, at[2])) {
        const rounded = Math.round(z * 1e5) / 1e5;
        found.set(rounded, (found.get(rounded) ?? 0) + 1);
      }
    }
  }
  return [...found].sort((a, b) => b[1] - a[1])[0]?.[0] ?? Number.NaN;
}

/** Between the two faces that callipers across the middle touch: the outermost of what is solid, the innermost of what
 *  is open. */
function widthOf(solid: Manifold, where: Where): number {
  const crossings = crossingsAt(sectionAt(solid, where));
  if (where.kind === 'bore')
    return Math.min(...crossings.filter((x) => x > 0)) - Math.max(...crossings.filter((x) => x < 0));
  return Math.max(...crossings) - Math.min(...crossings);
}

function crossingsAt(outlines: readonly Vec2[][]): number[] {
  return outlines.flatMap((outline) =>
    outline.flatMap((p, k) => {
      const q = outline[(k + 1) % outline.length]!;
      return p[1] > 0 === q[1] > 0 ? [] : [p[0] - (p[1] / (q[1] - p[1])) * (q[0] - p[0])];
    }),
  );
}
