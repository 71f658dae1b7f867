import { expect, it } from 'vitest';
import { outlineStep } from '../../../src/donor/spans/outlineStep.ts';

/** A square about the origin, four pieces. */
const square = (half: number): number[] => {
  const corners = [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ] as const;
  return corners.flatMap((p, k) => [...p, ...corners[(k + 1) % 4]!]);
};

const ring = (radius: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => {
    const at = (n: number) => (2 * Math.PI * n) / count;
    return [at(k), at(k + 1)].flatMap((angle) => [radius * Math.cos(angle), radius * Math.sin(angle)]);
  }).flat();

it('squares about one middle step apart most at the corners, by the root of two times the difference', () => {
  expect(outlineStep(square(1), square(1.5))).toBeCloseTo(0.5 * Math.SQRT2, 12);
});

it('circles about one middle step apart by the difference of their radii', () => {
  // Chords of 720 are off by r (1 - cos 0.25 deg), below 1e-5 of the radius.
  expect(outlineStep(ring(3, 720), ring(4, 720))).toBeCloseTo(1, 4);
});

it('the same outline does not step, whichever way it is cut into pieces; an empty one is nowhere near', () => {
  expect(outlineStep(square(2), square(2))).toBe(0);
  const halved = [-2, -2, 0, -2, 0, -2, 2, -2, 2, -2, 2, 2, 2, 2, -2, 2, -2, 2, -2, -2];
  expect(outlineStep(square(2), halved)).toBe(0);
  expect(outlineStep(square(1), [])).toBe(Infinity);
  expect(outlineStep([], [])).toBe(0);
});
