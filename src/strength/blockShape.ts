import { power } from '../arithmetic/power.ts';
import { demand, demandAbove0 } from './demand.ts';

/** Outline of a block under load, seen along the load. Lengths in mm. */
export type BlockOutline =
  | { readonly kind: 'disc'; readonly diameter: number }
  | { readonly kind: 'rectangle'; readonly length: number; readonly width: number }
  /** `bore` 0 or above, below `diameter`; 0 is a disc. */
  | { readonly kind: 'ring'; readonly diameter: number; readonly bore: number };

export interface BlockShape {
  /** Loaded area, mm^2. */
  readonly area: number;
  /** Length of the edges that are free to bulge, mm. */
  readonly edge: number;
  /** Stiffening by gripped faces is E0 `hold` / t^2, mm^2. For a disc this is 2 S^2 with the shape factor S. */
  readonly hold: number;
  /** Stiffening of the material between faces that keep it from spreading lengthwise, 1 for a disc to 4/3 for a long strip, at
   *  a height in mm. */
  readonly plane: (height: number) => number;
}

/** Area, edge and hold of an outline.
 *
 *  `hold` follows from pressure that obeys a Poisson equation over the area and is 0 on its edge (A. N. Gent and E. A. Meinecke,
 *  Polym. Eng. Sci. 10 (1970) 48; J. M. Kelly, Earthquake-Resistant Design with Rubber, both from memory): torsion constant over area
 *  for a full outline, so D^2/8 for a disc, 0.1406 a^2 for a square, w^2/3 for a strip; for a ring [R^2 + r^2 - (R^2 - r^2) / ln(R/r)] / 2.
 *  The handbooks' E0 (1 + 2 k S^2) is the disc; it is 11 % short for a square and half too stiff for a strip or thin ring.
 *  `plane` for a rectangle is Gent and Meinecke's 4/3 - 2/3 (ab + t^2) / (a^2 + b^2 + 2 t^2); a ring keeps 1, up to a quarter too soft when thin.
 *  Throws `RangeError` for sizes outside the stated ranges.
 *  @example blockShape({ kind: 'disc', diameter: 20 }).hold // => 50 */
export function blockShape(outline: BlockOutline): BlockShape {
  if (outline.kind === 'rectangle') {
    const { length, width } = outline;
    demandAbove0('rubber block', { length, width });
    const [a, b] = [Math.max(length, width), Math.min(length, width)];
    return {
      area: a * b,
      edge: 2 * (a + b),
      hold: b * b * torsionOfRectangle(a / b),
      plane: (t) => 4 / 3 - ((2 / 3) * (a * b + t * t)) / (a * a + b * b + 2 * t * t),
    };
  }
  const { diameter } = outline;
  const bore = outline.kind === 'ring' ? outline.bore : 0;
  demandAbove0('rubber block', { diameter });
  demand('rubber block', 'bore', bore, bore >= 0 && bore < diameter, `0 to below ${diameter} mm`);
  const [R, r] = [diameter / 2, bore / 2];
  // ln(R/r) is finite down to the smallest double, so the ring runs into the disc without a step.
  const middle = r > 0 ? (R * R - r * r) / Math.log(R / r) : 0;
  return {
    area: Math.PI * (R * R - r * r),
    edge: 2 * Math.PI * (R + r),
    hold: (R * R + r * r - middle) / 2,
    plane: () => 1,
  };
}

/** Torsion constant of a rectangle of side ratio `ratio`, 1 or above, over its area and the square of its short side: 0.1406 for a square, 1/3 for
 *  a strip. Saint-Venant's series (Timoshenko and Goodier, Theory of Elasticity). */
function torsionOfRectangle(ratio: number): number {
  let sum = 0;
  for (let n = 1; n < 60; n += 2) sum += Math.tanh((n * Math.PI * ratio) / 2) / power(n, 5);
  return 1 / 3 - ((64 / power(Math.PI, 5)) * sum) / ratio;
}

/** Shape factor S: loaded area over the area free to bulge, for a block of `height` mm; D / (4 t) for a disc.
 *  @example shapeFactor({ kind: 'rectangle', length: 40, width: 20 }, 5) // => 1.3333 */
export function shapeFactor(outline: BlockOutline, height: number): number {
  demandAbove0('rubber block', { height });
  const { area, edge } = blockShape(outline);
  return area / (edge * height);
}
