import { describe, expect, it } from 'vitest';
import { solvePlaneStress } from '../../src/strength/planeStress.ts';
import { wireStiffness, wireStrain } from '../../src/strength/wireSpring.ts';

const leg = { diameter: 1.6, length: 20, modulus: 200000 };

describe('wire spring', () => {
  it('has 3 E I / L^3 and 3 d y / (2 L^2), worked by hand', () => {
    // I = pi 1.6^4 / 64 = 0.321699 mm^4
    expect(wireStiffness(leg)).toBeCloseTo((3 * 200000 * 0.321699) / 8000, 4);
    expect(wireStrain(leg, 0.5)).toBeCloseTo(0.003, 12);
    expect(wireStrain(leg, -0.5)).toBeCloseTo(0.003, 12);
  });

  it("bends as the finite elements' bar does, but for the shape of its section", () => {
    const bar = solvePlaneStress({
      contours: [
        [
          [0, 0],
          [20, 0],
          [20, 1.6],
          [0, 1.6],
        ],
      ],
      modulus: leg.modulus,
      poisson: 0.3,
      fixed: (p) => p[0] < 1e-9,
      prescribed: [{ at: [20, 0.8], by: [0, 0.5] }],
      strainAway: 1,
      patch: 0.8,
    });
    if (!bar.ok) throw new Error(bar.problem.sentence);
    const inertiaRatio = (Math.PI * 1.6 ** 4) / 64 / (1.6 ** 3 / 12);
    expect((wireStiffness(leg) * 0.5) / inertiaRatio / bar.forces[0]!).toBeCloseTo(1, 1.5);
    // The peak is looked for 0.2 mm from the root's ends: 1 % less moment there.
    expect(bar.peakStrain / wireStrain(leg, 0.5)).toBeCloseTo(0.99, 1.3);
  });

  it.each(['diameter', 'length', 'modulus'] as const)('refuses a %s of 0', (name) => {
    expect(() => wireStiffness({ ...leg, [name]: 0 })).toThrow(`wire leg requires ${name} above 0 (given 0)`);
    expect(() => wireStrain({ ...leg, [name]: 0 }, 1)).toThrow(RangeError);
  });
});
