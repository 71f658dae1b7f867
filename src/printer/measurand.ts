import { hydraulicDiameter } from '../solid/profile.ts';
import type { Vec3 } from '../solid/vector.ts';
import type { LyingRound } from './stairs.ts';

/** What is measured of the print, and how it lies on the bed. */
export interface Measurand {
  /** post, rib: over two outer faces. bore, slot: between two inner faces. step: faces counted by `faces`. */
  readonly kind: 'bore' | 'slot' | 'post' | 'rib' | 'step';
  /** Unit vector along which the size is measured, in bed coordinates. */
  readonly direction: Readonly<Vec3>;
  /** Bore, slot: hydraulic diameter 4 A / P in mm of the opening drawn `drawn` mm wide, rising with it. Without it a bore
   *  has its own diameter and a slot, taken for long, twice its width. */
  readonly hydraulic?: (drawn: number) => number;
  /** Step: by how many growing faces it gains (negative: loses). `outer` 1, the default, is from an outer face to the axis
   *  of a bore; outer 1 and inner 1 a wall between the two; both 0 a step between faces that look the same way. */
  readonly faces?: { readonly outer: number; readonly inner: number };
  /** Sizes along z: height of the lower face above the bed, mm, 0 unless given. */
  readonly lowerFace?: number;
  /** Step along z up to the axis of a hollow: how far the hollow's floor, the face that is printed, lies below it, mm. */
  readonly below?: number;
  /** Sizes in the plane of the bed: taken at the first layer, where every growing face spreads. */
  readonly atBed?: boolean;
  /** Sizes along z: their upper face is the roof of a hollow, which sags. */
  readonly roof?: boolean;
  /** Sizes along z: their lower face looks down. It sags like a roof, unless it stands on the bed. */
  readonly underside?: boolean;
  /** Sizes level with the bed: the round they are the width of, when it lies level. */
  readonly lying?: LyingRound;
}

/** Faces whose direction lies within 45 degrees of the vertical come in whole layers. */
export function isVertical({ direction }: Measurand): boolean {
  return Math.abs(direction[2]) >= Math.SQRT1_2;
}

/** Growing faces by which a size gains. */
export function growingFaces({ kind, faces }: Measurand): { readonly outer: number; readonly inner: number } {
  switch (kind) {
    case 'post':
    case 'rib':
      return { outer: 2, inner: 0 };
    case 'bore':
    case 'slot':
      return { outer: 0, inner: -2 };
    case 'step':
      return faces ?? { outer: 1, inner: 0 };
  }
}

/** Hydraulic diameter of a slot with round ends, mm, by its width. `length` is over all, mm; a slot as wide as long, or
 *  drawn wider, is a bore of its own diameter. The formula is that of `hydraulicDiameter`.
 *  @example stadiumHydraulic(10)(2) // => 3.4297 */
export function stadiumHydraulic(length: number): (width: number) => number {
  return (width) => hydraulicDiameter(width, Math.max(width, length));
}

/** Hydraulic diameter of a rectangular opening, mm, by its width: 2 w L / (w + L).
 *  @example rectangleHydraulic(4)(4) // => 4 */
export function rectangleHydraulic(length: number): (width: number) => number {
  return (width) => (2 * width * length) / (width + length);
}
