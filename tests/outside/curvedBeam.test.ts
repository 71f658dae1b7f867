import { describe, expect, it } from 'vitest';
import type { Contour, Vec2 } from '../../src/solid/vector.ts';
import type { PlaneStressQuestion } from '../../src/strength/planeStress.ts';
import { solvePlaneStress } from '../../src/strength/planeStress.ts';

const E = 1000;
const solve = (question: Omit<PlaneStressQuestion, 'modulus' | 'poisson'>) => {
  const s = solvePlaneStress({ ...question, modulus: E, poisson: 0.3 });
  if (!s.ok) throw new Error(s.problem.sentence);
  return s;
};
const arc = (r: number, from: number, to: number, n: number): Vec2[] =>
  Array.from({ length: n + 1 }, (_, i) => {
    const a = from + ((to - from) * i) / n;
    return [r * Math.cos(a), r * Math.sin(a)];
  });

/** Timoshenko and Goodier, Theory of Elasticity, "Bending of a curved bar by a force at the end" (from memory; derived again from
 *  the stress function (A r^3 + B / r + C r + D r ln r) sin t). Quarter ring a to b, force P along the free end's radius, t from it. */
const goodier = (a: number, b: number) => {
  const n = a * a - b * b + (a * a + b * b) * Math.log(b / a);
  return {
    hoop: (r: number, t: number) =>
      ((3 * r - (a * a * b * b) / r ** 3 - (a * a + b * b) / r) * Math.sin(t)) / n,
    deflection: (Math.PI * (a * a + b * b)) / (E * n),
  };
};

describe('thick curved bar under an end force', () => {
  it.each([
    [1, 2],
    [0.9, 2],
    [2, 2.6],
    [1, 2.5],
  ])('bore radius %d, outer radius %d: hoop strain on the inner face and deflection', (a, b) => {
    const s = solve({
      contours: [[...arc(b, 0, Math.PI / 2, 100), ...arc(a, Math.PI / 2, 0, 100)]],
      fixed: (p) => p[0] < 1e-9,
      prescribed: [{ at: [(a + b) / 2, 0], by: [0.01, 0] }],
      strainAway: (b - a) / 2,
      patch: (b - a) / 2,
      thicknessSize: 0.2,
    });
    const exact = goodier(a, b);
    const force = s.forces[0]!;
    let checked = 0;
    for (let i = 0; i < s.nodes.length / 2; i++) {
      const [x, y] = [s.nodes[2 * i]!, s.nodes[2 * i + 1]!];
      const [r, t] = [Math.hypot(x, y), Math.atan2(y, x)];
      if (Math.abs(r - a) > 0.002 || t < 0.6 || t > 1.1) continue;
      checked++;
      // Nothing presses on the inner face: strain along it is hoop stress over E.
      expect(Math.abs(s.nodalStrain[i]!) / Math.abs((force * exact.hoop(a, t)) / E)).toBeGreaterThan(0.95);
      expect(Math.abs(s.nodalStrain[i]!) / Math.abs((force * exact.hoop(a, t)) / E)).toBeLessThan(1.05);
    }
    expect(checked).toBeGreaterThan(1);
    expect(Math.abs((force * Math.abs(exact.deflection)) / 0.01 - 1)).toBeLessThan(0.06);
  });
});

describe('plate with a round hole in tension (Kirsch)', () => {
  it("triples the strain at the hole, 3.04 of the gross one for a plate ten holes wide (Peterson's fit, from memory)", () => {
    const plate: Contour = [
      [-10, -25],
      [10, -25],
      [10, 25],
      [-10, 25],
    ];
    const s = solve({
      contours: [plate, arc(1, 2 * Math.PI, (2 * Math.PI) / 120, 119)],
      fixed: (p) => p[1] < -25 + 1e-9,
      prescribed: [{ at: [0, 25], by: [0, 0.1] }],
      strainAway: 15,
      patch: 10,
    });
    const ratio = 2 / 20;
    const concentration = 0.284 + 2 / (1 - ratio) - 0.6 * (1 - ratio) + 1.32 * (1 - ratio) ** 2;
    expect(s.peakSign).toBe('tension');
    expect(Math.abs(Math.abs(s.peakAt[0]) - 1)).toBeLessThan(0.05);
    expect(Math.abs(s.peakAt[1])).toBeLessThan(0.2);
    expect(Math.abs(s.peakStrain / ((concentration * s.forces[0]!) / 20 / E) - 1)).toBeLessThan(0.04);
  });
});
