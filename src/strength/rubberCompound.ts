import type { Material } from '../standards/materials.ts';
import { demand } from './demand.ts';

/** What a rubber-like block is made of. */
export interface RubberCompound {
  /** Young's modulus at small strain, MPa. */
  readonly modulus: number;
  /** How fully the shape factor counts, the handbook's k: 1 for an unfilled rubber, less with carbon black. */
  readonly shapeShare: number;
  /** Modulus of a block so flat that it cannot bulge, MPa; Infinity for an incompressible one. */
  readonly bulk: number;
}

/** Young's modulus of a rubber from its hardness on the Shore A scale, 20 to 95; MPa.
 *
 *  E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)), A. N. Gent, Rubber Chem. Technol. 31 (1958) 896: the indentation of a
 *  truncated cone by linear elasticity. Trusted to about 80; above it rises too steeply, to infinity at 100. A hardness is
 *  read to some 2 points, which is 6 % of the modulus at 60 and 45 % at 95. Throws `RangeError` outside 20 to 95.
 *  @example gentModulus(60) // => 3.605 */
export function gentModulus(shoreA: number): number {
  demand('modulus from hardness', 'Shore A', shoreA, shoreA >= 20 && shoreA <= 95, '20 to 95');
  return (0.0981 * (56 + 7.62336 * shoreA)) / (0.137505 * (254 - 2.54 * shoreA));
}

/** Hardness (IRHD, near Shore A), E0 MPa, k, E-infinity MPa. P. B. Lindley, Engineering Design with Natural Rubber, 4th ed.,
 *  natural rubber, with carbon black above 48 IRHD; from memory, rows 65 and 75 checked against an earlier edition. */
const LINDLEY = [
  [30, 0.92, 0.93, 1000],
  [35, 1.18, 0.89, 1000],
  [40, 1.5, 0.85, 1000],
  [45, 1.8, 0.8, 1000],
  [50, 2.2, 0.73, 1030],
  [55, 3.25, 0.64, 1090],
  [60, 4.45, 0.57, 1150],
  [65, 5.85, 0.54, 1210],
  [70, 7.35, 0.53, 1270],
  [75, 9.4, 0.52, 1330],
] as const;

/** Natural rubber of a hardness of 30 to 75 IRHD (near Shore A) by Lindley's table, straight lines between its rows.
 *  For bought rubber feet. Throws `RangeError` outside the table.
 *  @example naturalRubber(60) // => { modulus: 4.45, shapeShare: 0.57, bulk: 1150 } */
export function naturalRubber(hardness: number): RubberCompound {
  demand('natural rubber', 'hardness', hardness, hardness >= 30 && hardness <= 75, '30 to 75 IRHD');
  const above = Math.max(
    1,
    LINDLEY.findIndex(([h]) => h >= hardness),
  );
  const [lo, hi] = [LINDLEY[above - 1]!, LINDLEY[above]!];
  const t = (hardness - lo[0]) / (hi[0] - lo[0]);
  const at = (i: 1 | 2 | 3) => lo[i] + t * (hi[i] - lo[i]);
  return { modulus: at(1), shapeShare: at(2), bulk: at(3) };
}

/** Bulk modulus of solid polyurethane rubber, MPa: rubbers lie at 1000 to 2500 whatever their hardness; from memory of
 *  textbook tables. A printed block has pores, so it is not stiffer than this. */
const BULK = 2000;

/** Stiffer than this it is a plastic, MPa; common practice, no source. */
const SOFTEST_PLASTIC = 200;

/** Whether a part of it bulges and gives like rubber, so that `printedRubber` takes it.
 *  @example isRubberLike(materials.TPU) // => true */
export const isRubberLike = ({ modulusAlong }: Material): boolean => modulusAlong.value <= SOFTEST_PLASTIC;

/** A printed elastomer, filled solid: its modulus from layer to layer, or Gent's when the hardness is known, and the
 *  shape factor counting in full as for any unfilled rubber. Sparse filling is softer by far: not covered.
 *  Throws `RangeError` for a material of more than 200 MPa, which is no rubber.
 *  @example printedRubber(materials.TPU).modulus // => 36
 *  @example printedRubber(materials.TPU, 85).modulus // => 13.2 */
export function printedRubber(material: Material, shoreA?: number): RubberCompound {
  const along = material.modulusAlong.value;
  demand(
    'rubber block',
    `modulus of ${material.name}`,
    along,
    isRubberLike(material),
    'up to 200 MPa, TPU for instance',
  );
  const modulus = shoreA === undefined ? material.modulusAcross.value : gentModulus(shoreA);
  return { modulus, shapeShare: 1, bulk: BULK };
}
