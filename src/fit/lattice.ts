import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import type { Law } from './law.ts';
import { studentTable } from './student.ts';

/** Points of the lattice, a power of two so that a bit mask wraps around it. */
export const LATTICE_POINTS = 8192;

/** Generating vector of a rank-1 lattice: point i has coordinate frac((i z_d + 1/2) / N) in dimension d.
 *
 *  Found component by component (Sloan and Reztsov, Mathematics of Computation 71 (2002) 263, from memory): each z
 *  is the odd number below N / 2 of least worst-case error P2 with weight 1 / d^2 for dimension d; a test finds it
 *  again. The most telling cause belongs in the first dimension. */
export const latticeVector: readonly number[] = [
  1, 2431, 3739, 3175, 985, 1473, 3623, 2647, 343, 95, 3563, 3091, 601, 581, 1047, 869, 2069, 1145, 913, 3897,
  3209, 3505, 847, 3983,
];

/** Errors of a standard law at each of the lattice's coordinates, in order of the coordinate.
 *
 *  Coordinates are folded by the tent 1 - |2x - 1|, which makes any smooth integrand periodic and so earns a lattice
 *  its second order of convergence (Hickernell 2002, from memory). Every dimension visits the same coordinates in
 *  its own order, so one list of quantiles a law serves all. */
export function latticeErrors(kind: Law['kind'], dof: number): Float64Array {
  const key = kind === 'student' ? dof : kind;
  const known = lists.get(key);
  if (known) return known;
  const quantile = quantileOf(kind, dof);
  const list = new Float64Array(LATTICE_POINTS);
  for (let i = 0; i < LATTICE_POINTS / 2; i++) {
    const error = quantile((2 * i + 1) / LATTICE_POINTS);
    list[i] = error;
    list[LATTICE_POINTS - 1 - i] = error;
  }
  if (lists.size >= 32) lists.clear();
  lists.set(key, list);
  return list;
}

const lists = new Map<Law['kind'] | number, Float64Array>();

function quantileOf(kind: Law['kind'], dof: number): (p: number) => number {
  if (kind === 'normal') return normalQuantile.factory(0, 1);
  if (kind === 'rectangular') return (p) => Math.sqrt(3) * (2 * p - 1);
  return studentTable(dof).quantile;
}
