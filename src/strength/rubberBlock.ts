import { power } from '../arithmetic/power.ts';
import type { BlockOutline, BlockShape } from './blockShape.ts';
import { blockShape } from './blockShape.ts';
import { demand, demandAbove0 } from './demand.ts';
import type { RubberCompound } from './rubberCompound.ts';

/** How many of the two loaded faces hold the rubber: glued, moulded on or dry on a desk they do; a wet or powdered face slides. */
export type GrippedFaces = 0 | 1 | 2;

/** A rubber-like block between two stiff faces. */
export interface RubberBlock {
  readonly outline: BlockOutline;
  /** Height without load, mm. */
  readonly height: number;
  readonly compound: RubberCompound;
  /** Absent: both. */
  readonly gripped?: GrippedFaces;
}

export interface CompressedBlock {
  /** How far the block gives way, mm. */
  readonly deflection: number;
  /** Height under load, mm. */
  readonly height: number;
  /** Deflection over the height without load. */
  readonly strain: number;
  /** Mean pressure on the unloaded area, MPa. */
  readonly pressure: number;
  /** Force, N. */
  readonly force: number;
  /** Force for a further 1 mm at this load, N/mm. */
  readonly stiffness: number;
  /** Apparent modulus at small strain, MPa. */
  readonly modulus: number;
  /** How far the edge stands out at mid-height, mm. */
  readonly bulge: number;
  /** False past 30 % strain, where the relation is not to be trusted. */
  readonly holds: boolean;
}

/** Strain to which the law is used; its source compares with experiments to about that. */
const LARGEST_STRAIN = 0.3;

/** Apparent modulus of a block in compression at small strain, MPa: E0 (1 + 2 k S^2) for a disc, with bulk compression in series.
 *
 *  A. N. Gent and P. B. Lindley, Proc. IMechE 173 (1959) 111; P. B. Lindley, Engineering Design with Natural Rubber; other outlines
 *  as in `blockShape`. One gripped face makes the block the half of one twice as high, by symmetry; none leaves E0.
 *  Throws `RangeError` for sizes and moduli not above 0.
 *  @example blockModulus({ outline: { kind: 'disc', diameter: 20 }, height: 5,
 *    compound: { modulus: 4.45, shapeShare: 0.57, bulk: 1150 } }) // => 9.4448 */
export function blockModulus(block: RubberBlock): number {
  check(block);
  return modulusOf(blockShape(block.outline), block.height, block);
}

/** A block under a force of 0 or above, N.
 *
 *  Large strains by F = E_c A / 3 (L^-2 - L), L = height under load over height without (P. B. Lindley, J. Strain Anal. 1 (1966) 190,
 *  from memory; for no shape effect it is the exact law of a neo-Hookean bar). Short-term: rubber creeps on, some 2 to 8 % of the
 *  deflection a decade of time, printed polyurethane more (common practice, no source).
 *  @example a case of 8 kg on four feet of 15 x 6 mm, 55 IRHD: 0.137 mm by the straight law
 *  compressBlock({ outline: { kind: 'disc', diameter: 15 }, height: 6,
 *    compound: { modulus: 3.25, shapeShare: 0.64, bulk: Infinity } }, 19.6133).deflection // => 0.1335 */
export function compressBlock(block: RubberBlock, force: number): CompressedBlock {
  check(block);
  demand('rubber block', 'force', force, force >= 0 && force < Infinity, '0 N or above');
  const shape = blockShape(block.outline);
  const modulus = modulusOf(shape, block.height, block);
  const stretch = stretchUnder((3 * force) / (modulus * shape.area));
  return answer(block, shape, modulus, stretch, force);
}

/** The block pressed together by `deflection` mm, 0 to below its height: the force it takes. The inverse of `compressBlock`. */
export function pressBlock(block: RubberBlock, deflection: number): CompressedBlock {
  check(block);
  const { height } = block;
  demand(
    'rubber block',
    'deflection',
    deflection,
    deflection >= 0 && deflection < height,
    `0 to below ${height} mm`,
  );
  const shape = blockShape(block.outline);
  const modulus = modulusOf(shape, height, block);
  const stretch = 1 - deflection / height;
  return answer(block, shape, modulus, stretch, (modulus * shape.area * (power(stretch, -2) - stretch)) / 3);
}

/** Height to draw, mm, so that the block stands at `loaded` mm under `force` N. The outline stays; a higher block has a smaller
 *  shape factor, which is taken along.
 *  @example compressBlock({ ...foot, height: freeHeight(foot, 6, 20) }, 20).height // => 6 */
export function freeHeight(block: Omit<RubberBlock, 'height'>, loaded: number, force: number): number {
  demandAbove0('rubber block', { 'height under load': loaded });
  const under = (height: number) => compressBlock({ ...block, height }, force).height;
  // No height is softer than the bare material: it bounds the answer from above.
  const { modulus, bulk } = block.compound;
  const softest = 1 / (1 / modulus + 1 / bulk);
  let low = loaded;
  let high = loaded / stretchUnder((3 * force) / (softest * blockShape(block.outline).area));
  if (under(low) >= loaded) return low;
  for (let i = 0; i < 200 && high - low > 1e-13 * high; i++) {
    const middle = (low + high) / 2;
    if (under(middle) < loaded) low = middle;
    else high = middle;
  }
  return high;
}

function modulusOf(shape: BlockShape, height: number, { compound, gripped = 2 }: RubberBlock): number {
  const { modulus, shapeShare, bulk } = compound;
  const high = gripped === 1 ? 2 * height : height;
  const held = gripped === 0 ? 1 : shape.plane(high) + (shapeShare * shape.hold) / high ** 2;
  return 1 / (1 / (modulus * held) + 1 / bulk);
}

/** Root of L^-2 - L = s for s of 0 or above: Newton from the left, where the curve is steep and hollow, so it never oversteps. */
function stretchUnder(s: number): number {
  let stretch = 1 / Math.sqrt(1 + s);
  for (let i = 0; i < 60; i++) {
    const next = stretch + (power(stretch, -2) - stretch - s) / (2 * power(stretch, -3) + 1);
    if (!(next > stretch)) break;
    stretch = next;
  }
  return Math.min(1, stretch);
}

function answer(
  block: RubberBlock,
  shape: BlockShape,
  modulus: number,
  stretch: number,
  force: number,
): CompressedBlock {
  const { height } = block;
  return {
    deflection: height * (1 - stretch),
    height: height * stretch,
    strain: 1 - stretch,
    pressure: force / shape.area,
    force,
    stiffness: (modulus * shape.area * (2 * power(stretch, -3) + 1)) / (3 * height),
    modulus,
    bulge: bulgeOf(block, shape, stretch),
    holds: 1 - stretch <= LARGEST_STRAIN,
  };
}

/** Stand-out of the edge that keeps the volume. A gripped edge bows as a parabola over the height; averaged over it, the
 *  stand-out u is 2/3 and its square 8/15 of the peak's. The area grows by edge u + pi u^2, on a ring by edge u, as the bore closes. */
function bulgeOf({ outline, gripped = 2 }: RubberBlock, { area, edge }: BlockShape, stretch: number): number {
  const growth = area * (1 / stretch - 1);
  const [mean, square] = gripped === 0 ? [1, 1] : [2 / 3, 8 / 15];
  const round = outline.kind === 'ring' && outline.bore > 0 ? 0 : Math.PI * square;
  const half = (edge * mean) / 2;
  // The root of round u^2 + 2 half u = growth in the form that loses no digits near 0.
  return growth / (half + Math.sqrt(half * half + round * growth));
}

function check({ height, compound }: RubberBlock): void {
  const { modulus, shapeShare, bulk } = compound;
  demandAbove0('rubber block', { height, modulus });
  demand('rubber block', 'shapeShare', shapeShare, shapeShare >= 0 && shapeShare <= 1, '0 to 1');
  demand('rubber block', 'bulk', bulk, bulk > 0, 'above 0 MPa');
}
