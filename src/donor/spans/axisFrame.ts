import { add, cross, times, unit, type Vec3 } from '../../solid/vector.ts';
import { boxDiagonal } from '../boxOf.ts';

/** A donor's vertices as seen along an axis: two coordinates across it and the level on it. */
export interface AxisFrame {
  /** Unit vector. */
  readonly axis: Readonly<Vec3>;
  /** Two unit vectors across the axis, right-handed with it. */
  readonly across: readonly [Readonly<Vec3>, Readonly<Vec3>];
  /** Three numbers a vertex. For x, y and z these are the donor's own positions, not a copy. */
  readonly coordinates: Float64Array;
  /** Which of the three is the first across, the second across, and the level. */
  readonly u: number;
  readonly v: number;
  readonly h: number;
}

/** The frame of an axis, which need not be a unit vector. Along x, y and z levels are the coordinates themselves, bit
 *  for bit. Throws `RangeError` for the zero vector. */
export function axisFrame(positions: Float64Array, along: Readonly<Vec3>): AxisFrame {
  const axis = unit(along);
  const h = axis.indexOf(1);
  if (h >= 0) {
    const [u, v] = [(h + 1) % 3, (h + 2) % 3];
    return { axis, across: [letter(u), letter(v)], coordinates: positions, u, v, h };
  }
  const across = acrossOf(axis);
  const [p, q] = across;
  const coordinates = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    coordinates[i] = p[0] * x + p[1] * y + p[2] * z;
    coordinates[i + 1] = q[0] * x + q[1] * y + q[2] * z;
    coordinates[i + 2] = axis[0] * x + axis[1] * y + axis[2] * z;
  }
  return { axis, across, coordinates, u: 0, v: 1, h: 2 };
}

const letter = (k: number): Vec3 => [Number(k === 0), Number(k === 1), Number(k === 2)];

/** Two unit vectors across an axis. From the coordinate axis that lies most across, so that the same axis always gives the same pair. */
export function acrossOf(axis: Readonly<Vec3>): [Vec3, Vec3] {
  const size = axis.map(Math.abs);
  const v = unit(cross(axis, letter(size.indexOf(Math.min(...size)))));
  return [cross(v, axis), v];
}

/** Lowest and highest level of any vertex; both 0 for a mesh without vertices. */
export function extentOf({ coordinates, h }: AxisFrame): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = h; i < coordinates.length; i += 3) {
    const level = coordinates[i]!;
    if (level < low) low = level;
    if (level > high) high = level;
  }
  return low <= high ? [low, high] : [0, 0];
}

/** The diagonal of the box around the vertices: what tolerances are taken relative to. */
export const diagonalOf = ({ coordinates }: Pick<AxisFrame, 'coordinates'>): number =>
  boxDiagonal(coordinates);

/** The point with these coordinates in the frame. */
export const pointIn = ({ axis, across }: AxisFrame, u: number, v: number, h: number): Vec3 =>
  add(add(times(across[0], u), times(across[1], v)), times(axis, h));
