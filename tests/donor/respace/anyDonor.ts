import fc from 'fast-check';
import { block, cylinder, prism } from '../../../src/solid/primitives.ts';
import { difference, type Shape, union } from '../../../src/solid/shape.ts';
import type { Contour } from '../../../src/solid/vector.ts';

/** Even steps: plain doubles crowd around the ends of a range. */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 9973 }).map((k) => min + ((max - min) * k) / 9973);

/** A quarter round that fills the corner between the plate and a rib, `r` mm. */
function fillet(x: number, r: number, from: number, to: number, z: number): Shape {
  // Across y a profile is drawn in z, x.
  const arc = Array.from({ length: 9 }, (_, k): [number, number] => {
    const angle = (k * Math.PI) / 16;
    return [z + r - r * Math.cos(angle), x + r - r * Math.sin(angle)];
  });
  const contour: Contour = [[z - 1, x - 1], [z - 1, x + r], ...arc, [z + r, x - 1]];
  return prism('y', counterClockwise(contour), from, to);
}

const counterClockwise = (contour: Contour): Contour => {
  const twice = contour.reduce((sum, [x, y], k) => {
    const [p, q] = contour[(k + 1) % contour.length]!;
    return sum + x * q - p * y;
  }, 0);
  return twice > 0 ? contour : [...contour].reverse();
};

/** Plates with bores, posts, ribs with a fillet, cross bores, slots: the parts of old machines, at random. Some features
 *  overlap or stick out over the edge, which a real donor's do too. */
export const anyDonor: fc.Arbitrary<Shape> = fc
  .record({
    size: fc.tuple(between(30, 70), between(15, 40), between(3, 8)),
    bores: fc.array(fc.tuple(between(0.1, 0.9), between(0.1, 0.9), between(1, 5)), { maxLength: 9 }),
    posts: fc.array(fc.tuple(between(0.1, 0.9), between(0.1, 0.9), between(2, 6), between(2, 12)), {
      maxLength: 3,
    }),
    ribs: fc.array(fc.tuple(between(0.1, 0.9), between(1, 3), between(2, 9), between(0.5, 2)), {
      maxLength: 2,
    }),
    cross: fc.array(fc.tuple(between(0.1, 0.9), between(0.5, 2)), { maxLength: 2 }),
    slots: fc.array(fc.tuple(between(0.1, 0.6), between(0.1, 0.8), between(3, 15)), { maxLength: 2 }),
  })
  .map(({ size: [x, y, z], bores, posts, ribs, cross, slots }) => {
    const solids = [
      block([0, 0, 0], [x, y, z]),
      ...posts.map(([u, v, diameter, length]) =>
        cylinder({
          axis: 'z',
          diameter,
          from: [u * x, v * y, z - 0.5],
          length,
          sense: 'shaft',
          surface: 'plain',
        }),
      ),
      ...ribs.flatMap(([u, thick, high, r]) => [
        block([u * x, 0, z - 0.5], [u * x + thick, y, z + high]),
        fillet(u * x + thick, r, 0, y, z),
      ]),
    ];
    const hollows = [
      ...bores.map(([u, v, diameter]) =>
        cylinder({
          axis: 'z',
          diameter,
          from: [u * x, v * y, -1],
          length: 40,
          sense: 'bore',
          surface: 'plain',
        }),
      ),
      ...cross.map(([u, diameter]) =>
        cylinder({
          axis: 'y',
          diameter,
          from: [u * x, -1, z / 2],
          length: 60,
          sense: 'bore',
          surface: 'plain',
        }),
      ),
      ...slots.map(([u, v, long]) => block([u * x, v * y, -1], [u * x + long, v * y + 2, 40])),
    ];
    return hollows.length === 0 ? union(...solids) : difference(union(...solids), ...hollows);
  });
