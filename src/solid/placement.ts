import type { Placement, Vec3 } from './vector.ts';

/** The placement that leaves everything where it is. */
export const identity: Placement = { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] };

/** A pure shift by `by`, mm. */
export const shift = (by: Readonly<Vec3>): Placement => ({ rotation: identity.rotation, translation: by });

/** Turns a direction; translation does not act on it. */
export function turn({ rotation: r }: Placement, v: Readonly<Vec3>): Vec3 {
  return [
    r[0] * v[0] + r[1] * v[1] + r[2] * v[2],
    r[3] * v[0] + r[4] * v[1] + r[5] * v[2],
    r[6] * v[0] + r[7] * v[1] + r[8] * v[2],
  ];
}

/** Places a point. */
export function place(placement: Placement, p: Readonly<Vec3>): Vec3 {
  const [x, y, z] = turn(placement, p);
  const t = placement.translation;
  return [x + t[0], y + t[1], z + t[2]];
}

/** First `first`, then `then`. */
export function after(then: Placement, first: Placement): Placement {
  const column = (k: 0 | 1 | 2): Vec3 =>
    turn(then, [first.rotation[k], first.rotation[k + 3]!, first.rotation[k + 6]!]);
  const [a, b, c] = [column(0), column(1), column(2)];
  return {
    rotation: [a[0], b[0], c[0], a[1], b[1], c[1], a[2], b[2], c[2]],
    translation: place(then, first.translation),
  };
}

/** The placement that undoes this one (rigid: the transpose). */
export function inverse({ rotation: r, translation: t }: Placement): Placement {
  const back: Placement = {
    rotation: [r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]],
    translation: [0, 0, 0],
  };
  const [x, y, z] = turn(back, t);
  return { rotation: back.rotation, translation: [-x, -y, -z] };
}

/** The 4 x 4 column-major matrix of a placement, as both geometry libraries take it. */
export function matrix({ rotation: r, translation: t }: Placement): Matrix {
  return [r[0], r[3], r[6], 0, r[1], r[4], r[7], 0, r[2], r[5], r[8], 0, t[0], t[1], t[2], 1];
}

type Row = [number, number, number, number];
type Matrix = [...Row, ...Row, ...Row, ...Row];

/** Quarter turns that bring the named machine axis to point up on the bed, right-handed. */
export const up: Readonly<Record<'x' | 'y' | 'z' | '-x' | '-y' | '-z', Placement>> = {
  z: identity,
  '-z': { rotation: [1, 0, 0, 0, -1, 0, 0, 0, -1], translation: [0, 0, 0] },
  x: { rotation: [0, 1, 0, 0, 0, 1, 1, 0, 0], translation: [0, 0, 0] },
  '-x': { rotation: [0, 1, 0, 0, 0, -1, -1, 0, 0], translation: [0, 0, 0] },
  y: { rotation: [0, 0, 1, 1, 0, 0, 0, 1, 0], translation: [0, 0, 0] },
  '-y': { rotation: [1, 0, 0, 0, 0, 1, 0, -1, 0], translation: [0, 0, 0] },
};
