import type { Shape } from '../../solid/shape.ts';
import type { Vec3 } from '../../solid/vector.ts';
import type { NumberPlace } from './digits.ts';
import type { CouponFeature } from './feature.ts';

/** A feature that has no number yet, and where its number is to stand. */
export interface Draft extends Omit<CouponFeature, 'number'> {
  readonly place: NumberPlace;
  /** Numbers on faces that jaws or the depth rod rest on are sunk. */
  readonly sunk?: boolean;
}

/** Some features and what they add to the coupon and take out of it. */
export interface Group {
  readonly adds: readonly Shape[];
  readonly cuts: readonly Shape[];
  readonly drafts: readonly Draft[];
}

/** Readings asked of most features: a second one shows a slip of the hand. */
export const TIMES = 2;

/** How far a print may be from its drawing before a reading is not believed, mm: several times what printers do. */
const OFF = 0.6;
/** The same for lengths, as a share. */
const OFF_SHARE = 0.03;

/** Smallest and largest plausible reading of a drawn size, mm.
 *  @example plausible(76) // => { from: 73.1, to: 78.9 } */
export function plausible(nominal: number): { readonly from: number; readonly to: number } {
  const off = Math.min(OFF + OFF_SHARE * nominal, nominal / 2);
  const round = (value: number): number => Math.round(value * 10) / 10;
  return { from: round(nominal - off), to: round(nominal + off) };
}

/** Two points `size` apart about a middle. */
export function across(at: Vec3, direction: Readonly<Vec3>, size: number): readonly [Vec3, Vec3] {
  const end = (half: number): Vec3 => at.map((c, k) => c + half * direction[k]!) as Vec3;
  return [end(-size / 2), end(size / 2)];
}

export const unitAlong = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const satisfies Readonly<
  Record<'x' | 'y' | 'z', Readonly<Vec3>>
>;

/** A number that lies on the plate, read from the front. */
export const lying = (x: number, y: number, { plate }: { readonly plate: number }): NumberPlace => ({
  at: [x, y, plate],
  along: [1, 0, 0],
  up: [0, 1, 0],
});
