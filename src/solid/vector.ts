/** A point or direction, mm. */
export type Vec3 = [number, number, number];
/** A point in a plane, mm. */
export type Vec2 = [number, number];
/** A simple closed contour, last point joined to the first; counter-clockwise outside, clockwise around holes. */
export type Contour = Vec2[];
/** Three rows of a rigid placement: p' = R p + t, as [R row-major (9), t (3)]. */
export type Placement = {
  readonly rotation: readonly [number, number, number, number, number, number, number, number, number];
  readonly translation: Readonly<Vec3>;
};

export const dot = (a: Readonly<Vec3>, b: Readonly<Vec3>): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const add = (a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 => [
  a[0] - b[0],
  a[1] - b[1],
  a[2] - b[2],
];
export const times = (a: Readonly<Vec3>, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
export const cross = (a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const lengthOf = (a: Readonly<Vec3>): number => Math.hypot(a[0], a[1], a[2]);
/** Unit vector along `a`; throws `RangeError` for the zero vector. */
export const unit = (a: Readonly<Vec3>): Vec3 => {
  const length = lengthOf(a);
  if (length === 0) throw new RangeError('unit requires a vector of length above 0');
  return times(a, 1 / length);
};
