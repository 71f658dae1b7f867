import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { roundFeatures } from '../../../src/donor/features/roundFeatures.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import { type DonorMesh, millimetresIn } from '../../../src/donor/types.ts';
import { guessUnit } from '../../../src/donor/units/guessUnit.ts';
import { isRound, logLikelihood } from '../../../src/donor/units/roundness.ts';
import { loadKernel, withScope } from '../../../src/solid/kernel.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { as32, donorOf, drawsOf, mapped } from '../features/syntheticDonor.ts';
import { typedPart } from './typedPart.ts';

const kernel = await loadKernel();
const PARTS = 500;

const guess = (mesh: DonorMesh) => guessUnit(mesh, roundFeatures(mesh));

interface Rate {
  /** Shares of the parts: guessed right, guessed with 95 % or more, wrong although. */
  readonly right: number;
  readonly sure: number;
  readonly surelyWrong: number;
}

function rate(unit: 'mm' | 'cm' | 'inch' | 'metre', system: 'metric' | 'inch', seed: number): Rate {
  let [right, sure, surelyWrong] = [0, 0, 0];
  for (let i = 0; i < PARTS; i++) {
    withScope(kernel, (scope) => {
      const typed = typedPart(scope, drawsOf(seed + i), system);
      const { guess: found, confidence } = guess(
        as32(mapped(typed, (v) => v.map((c) => c / millimetresIn[unit]) as Vec3)),
      );
      if (found === unit) right++;
      if (confidence >= 0.95) sure++;
      if (confidence >= 0.95 && found !== unit) surelyWrong++;
    });
  }
  return { right: right / PARTS, sure: sure / PARTS, surelyWrong: surelyWrong / PARTS };
}

// 3,000 random parts. Sizes in mm of parts drawn in inches, or the other way, betray the unit at once; what is left in doubt are decimal inches, which
// are whole millimetres in a file of metres and tenths of them in one of centimetres.
it.each([
  ['mm', 'metric', 0.98, 0.8],
  ['mm', 'inch', 0.98, 0.9],
  ['inch', 'inch', 0.85, 0.5],
  ['inch', 'metric', 0.99, 0.95],
  ['metre', 'metric', 0.99, 0.9],
  ['metre', 'inch', 0.99, 0.9],
] as const)('tells files in %s of parts drawn in %s sizes', (unit, system, right, sure) => {
  const found = rate(unit, system, 1000);
  expect(found.right).toBeGreaterThan(right);
  expect(found.sure).toBeGreaterThan(sure);
  expect(found.surelyWrong).toBeLessThan(0.015);
});

it.each([
  ['plate_holes.STL', 'mm'],
  ['round.stl', 'mm'],
  ['large_block.STL', 'mm'],
  ['idler_riser.STL', 'inch'],
  ['featuretype.STL', 'inch'],
] as const)('takes %s for %s', (name, unit) => {
  const { mesh } = readDonor(new Uint8Array(readFileSync(`tests/donor/models/${name}`)), name);
  const found = guess(mesh);
  expect(found.guess).toBe(unit);
  expect(found.confidence).toBeGreaterThan(0.9);
  expect(found.all.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
  expect(found.all[0]).toMatchObject({ unit, probability: found.confidence });
});

it('says why', () => {
  const { mesh } = readDonor(
    new Uint8Array(readFileSync('tests/donor/models/featuretype.STL')),
    'featuretype.STL',
  );
  expect(guess(mesh).because).toMatch(
    /^in inches it is 127 mm long and \d+ of \d+ sizes are sixty-fourths or twentieths of an inch; in /,
  );
});

it('is in doubt between a part of 6 mm and one of 6 in where nothing is round', () => {
  const odd = withScope(kernel, (scope) => {
    const { cube } = scope.kernel.Manifold;
    return donorOf(scope.keep(cube([6.1371, 3.3173, 1.7719])));
  });
  const { confidence, all } = guess(odd);
  expect(confidence).toBeLessThan(0.8);
  expect(
    all
      .slice(0, 2)
      .map(({ unit }) => unit)
      .sort(),
  ).toEqual(['inch', 'mm']);
});

it('counts a multiple for more the coarser its step is against the tolerance', () => {
  const even = (mm: number, off: number) => logLikelihood([mm], 'metric', off, 1);
  expect(even(10, 1e-3)).toBeGreaterThan(even(7, 1e-3));
  expect(even(7, 1e-3)).toBeGreaterThan(even(7.3, 1e-3));
  expect(even(7.3, 1e-3)).toBeGreaterThan(even(7.3137, 1e-3));
  // A tolerance that fills every gap leaves nothing to tell.
  expect(even(7.3137, 10)).toBeCloseTo(0, 12);
  expect(even(7, 10)).toBeCloseTo(0, 12);
  expect([isRound(12.5, 'metric', 1e-4), isRound(12.7, 'metric', 1e-4), isRound(12.7, 'inch', 1e-4)]).toEqual(
    [true, false, true],
  );
});
