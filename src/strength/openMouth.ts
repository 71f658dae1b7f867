import type { Contour, Vec2 } from '../solid/vector.ts';
import type { PlaneStressAnswer, PlaneStressProblem } from './planeStress.ts';
import { solvePlaneStress } from './planeStress.ts';
import { profileBelow } from './profileBelow.ts';

export interface MouthQuestion {
  /** Profile with the mouth at the bottom, mm: outer contours counter-clockwise, holes clockwise. */
  readonly contours: readonly Contour[];
  /** The two narrowest points that face each other across the mouth. */
  readonly lips: readonly [Readonly<Vec2>, Readonly<Vec2>];
  /** How far each lip is pushed aside, mm, above 0. */
  readonly openEachSide: number;
  /** MPa. */
  readonly modulus: number;
  readonly poisson: number;
  /** Points at this height and above are held, mm. */
  readonly fixedAbove: number;
  /** Element edge over local thickness; absent: 0.35. */
  readonly thicknessSize?: number;
}

export interface MouthAnswer {
  readonly ok: true;
  /** Largest tensile principal strain in the arms, away from the contact, 0.01 is 1 %. */
  readonly strain: number;
  readonly strainAt: Vec2;
  /** Largest compressive principal strain away from the contact, as a number 0 or above. */
  readonly compression: number;
  /** Force that holds one lip open, the mean of the two sides, N per mm of depth. */
  readonly force: number;
  /** `force` over `openEachSide`, N/mm per mm of depth, both lips moving apart alike. */
  readonly stiffness: number;
  /** `strain` over `openEachSide`, 1/mm. */
  readonly strainPerMillimetre: number;
  /** The whole solution, for showing it. */
  readonly solution: PlaneStressAnswer;
}

export type MouthResult = MouthAnswer | { readonly ok: false; readonly problem: PlaneStressProblem };

/** What it takes to open the mouth of a clip for a bar: strain in the arms and force on each lip.
 *
 *  Plane stress on the drawn profile below `fixedAbove` (see `solvePlaneStress`), each lip pushed along the line
 *  between the lips. Strain nearer to a lip than a quarter of the mouth does not count: there the bar dents the lip, which
 *  blunts it but does not break an arm. Tension decides: arms and printed layers break in it; compression is reported beside
 *  it, and where arms are thrice as thick as the bore is wide it is still that of the dent. Linear: results scale with `openEachSide`.
 *
 *  Checked against converged finite elements of another program over bars 0.8 to 4 mm, mouths 60 to 98 % of the bar, arms 0.6 to 3 mm
 *  thick, bores and slots: tests/outside/finiteElements.
 *  @example a ring of bore radius 0.9 and arms of 1.1 under a long body, mouth 1.4, each lip pushed 0.1 mm at
 *  E = 1000 MPa: strain 2.7 %, 4.4 N per mm of depth (the relation for a straight cantilever says 7.7 %) */
export function openMouth(question: MouthQuestion): MouthResult {
  const { contours, lips, openEachSide, modulus, poisson, fixedAbove, thicknessSize } = question;
  const [left, right] = lips;
  const mouth = Math.hypot(right[0] - left[0], right[1] - left[1]);
  if (!(mouth > 0) || !(openEachSide > 0)) {
    const sentence = `mouth requires width and opening above 0 (width ${mouth} mm, opening ${openEachSide} mm)`;
    return { ok: false, problem: { kind: 'value', sentence } };
  }
  const by: Vec2 = [
    ((right[0] - left[0]) / mouth) * openEachSide,
    ((right[1] - left[1]) / mouth) * openEachSide,
  ];
  const solution = solvePlaneStress({
    contours: profileBelow(contours, fixedAbove),
    modulus,
    poisson,
    fixed: (p) => p[1] >= fixedAbove - 1e-9,
    prescribed: [
      { at: left, by: [-by[0], -by[1]] },
      { at: right, by },
    ],
    strainAway: mouth / 4,
    ...(thicknessSize === undefined ? {} : { thicknessSize }),
  });
  if (!solution.ok) return solution;
  const force = (solution.forces[0]! + solution.forces[1]!) / 2;
  return {
    ok: true,
    strain: solution.tension.strain,
    strainAt: solution.tension.at,
    compression: solution.compression.strain,
    force,
    stiffness: force / openEachSide,
    strainPerMillimetre: solution.tension.strain / openEachSide,
    solution,
  };
}
