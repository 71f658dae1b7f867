import fc from 'fast-check';
import { deviationLetters } from '../../../src/standards/iso286/shaftDeviation.ts';

const letters = fc.constantFrom(...deviationLetters);
const grade = fc.oneof(fc.integer({ min: 5, max: 12 }), fc.integer({ min: 1, max: 18 }));

/** A fit as a job may state it: a class, a code of ISO 286, a window in mm. */
export const anyFit: fc.Arbitrary<string | [number, number]> = fc.oneof(
  fc.constantFrom('press', 'snug', 'sliding', 'free'),
  fc
    .tuple(letters, grade, letters, grade)
    .map(([hole, h, shaft, s]) => `${hole.toUpperCase()}${h}/${shaft}${s}`),
  fc
    .tuple(fc.integer({ min: -60, max: 100 }), fc.integer({ min: 1, max: 80 }))
    .map(([lo, width]): [number, number] => [lo / 100, (lo + width) / 100]),
);
