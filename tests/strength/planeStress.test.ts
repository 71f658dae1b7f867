import { describe, expect, it } from 'vitest';
import type { Contour, Vec2 } from '../../src/solid/vector.ts';
import type { PlaneStressAnswer, PlaneStressQuestion } from '../../src/strength/planeStress.ts';
import { solvePlaneStress } from '../../src/strength/planeStress.ts';
import { profileMesh } from '../../src/strength/profileMesh.ts';
import { assemble, nodalPrincipalStrains } from '../../src/strength/triangleElement.ts';

const solve = (question: PlaneStressQuestion): PlaneStressAnswer => {
  const result = solvePlaneStress(question);
  if (!result.ok) throw new Error(result.problem.sentence);
  return result;
};
const bar: Contour = [
  [0, 0],
  [20, 0],
  [20, 2],
  [0, 2],
];
const held = (p: Readonly<Vec2>) => p[0] < 1e-9;
const cantilever: PlaneStressQuestion = {
  contours: [bar],
  modulus: 1000,
  poisson: 0.35,
  fixed: held,
  prescribed: [{ at: [20, 1], by: [0, 0.5] }],
  strainAway: 2,
  patch: 1,
};

describe('patch test (any finite element text; from memory of Zienkiewicz and Taylor)', () => {
  const mesh = profileMesh(
    [
      [
        [0, 0],
        [7, 1],
        [9, 6],
        [4, 8],
        [1, 5],
      ],
    ],
    {
      ofThickness: 0.4,
      turn: 0.4,
      growth: 0.5,
      smallest: 0.02,
      largest: 2,
      at: [],
    },
  )!;
  const u = new Float64Array(mesh.nodes.length);
  for (let i = 0; i < u.length; i += 2) {
    const [x, y] = [mesh.nodes[i]!, mesh.nodes[i + 1]!];
    u[i] = 0.1 + 0.003 * x + 0.001 * y;
    u[i + 1] = -0.2 - 0.004 * x + 0.002 * y;
  }

  it('finds a constant strain exactly, everywhere', () => {
    const radius = Math.hypot((0.003 - 0.002) / 2, (0.001 - 0.004) / 2);
    const strain = nodalPrincipalStrains(mesh, u);
    for (let i = 0; i < strain.length; i += 2) {
      expect(strain[i]).toBeCloseTo(0.0025 + radius, 12);
      expect(strain[i + 1]).toBeCloseTo(0.0025 - radius, 12);
    }
  });

  it('needs no force within for a constant strain', () => {
    const count = mesh.nodes.length / 2;
    const { matrix, dof } = assemble(mesh, new Uint8Array(count), 1000, 0.35)!;
    const force = new Float64Array(2 * count);
    const place = new Float64Array(2 * count);
    for (let n = 0; n < count; n++) for (const c of [0, 1]) place[dof[n]! + c] = u[2 * n + c]!;
    for (let i = 0; i < place.length; i++) {
      for (let j = matrix.first[i]!; j <= i; j++) {
        const k = matrix.values[matrix.at[i]! + j]!;
        force[i] = force[i]! + k * place[j]!;
        if (j < i) force[j] = force[j]! + k * place[i]!;
      }
    }
    const onBoundary = new Set(mesh.boundary);
    let within = 0;
    for (let n = 0; n < count; n++) {
      if (onBoundary.has(n)) continue;
      within++;
      for (const c of [0, 1]) expect(Math.abs(force[dof[n]! + c]!)).toBeLessThan(1e-10 * 1000);
    }
    expect(within).toBeGreaterThan(20);
    expect(Math.max(...force.map(Math.abs))).toBeGreaterThan(0.1);
  });
});

describe('plane stress', () => {
  it("gives the force of a slender cantilever (Euler-Bernoulli with Timoshenko's shear, 6/5)", () => {
    const [inertia, shearModulus] = [2 ** 3 / 12, 1000 / (2 * 1.35)];
    const flexibility = 20 ** 3 / (3 * 1000 * inertia) + (1.2 * 20) / (shearModulus * 2);
    expect(solve(cantilever).forces[0]! * flexibility).toBeCloseTo(0.5, 2);
  });

  it('gives the bending strain F (L - x) h / (2 E I) half-way along', () => {
    const s = solve(cantilever);
    let checked = 0;
    for (let i = 0; i < s.nodes.length / 2; i++) {
      const [x, y] = [s.nodes[2 * i]!, s.nodes[2 * i + 1]!];
      if (x < 5 || x > 15 || (y > 1e-9 && y < 2 - 1e-9)) continue;
      const strain = (s.forces[0]! * (20 - x)) / (1000 * (2 ** 3 / 12));
      // Pushed up, the upper face is compressed.
      expect(s.nodalStrain[i]! / (y > 1 ? -strain : strain)).toBeCloseTo(1, 1.5);
      checked++;
    }
    expect(checked).toBeGreaterThan(10);
  });

  it('is linear, and the same in any place, direction and size', () => {
    const s = solve(cantilever);
    const twice = solve({ ...cantilever, prescribed: [{ at: [20, 1], by: [0, 1] }] });
    expect(twice.peakStrain / s.peakStrain).toBeCloseTo(2, 9);
    expect(twice.forces[0]! / s.forces[0]!).toBeCloseTo(2, 9);
    const turned = solve({
      ...cantilever,
      contours: [bar.map(([x, y]): Vec2 => [5 - y, x - 3])],
      fixed: (p) => p[1] < -3 + 1e-9,
      prescribed: [{ at: [4, 17], by: [-0.5, 0] }],
    });
    expect(turned.forces[0]! / s.forces[0]!).toBeCloseTo(1, 3);
    const larger = solve({
      ...cantilever,
      contours: [bar.map(([x, y]): Vec2 => [10 * x, 10 * y])],
      prescribed: [{ at: [200, 10], by: [0, 5] }],
      strainAway: 20,
      patch: 10,
      sampling: 2,
    });
    expect(larger.peakStrain / s.peakStrain).toBeCloseTo(1, 2);
    expect(larger.forces[0]! / s.forces[0]!).toBeCloseTo(10, 1);
  });

  it('has a symmetric stiffness between pushes, in balance with their forces', () => {
    const s = solve({
      ...cantilever,
      prescribed: [
        { at: [20, 1], by: [0, 0.5] },
        { at: [10, 2], by: [0, -0.1] },
      ],
    });
    expect(s.stiffness[0]![1]! / s.stiffness[1]![0]!).toBeCloseTo(1, 9);
    expect(s.forces[0]).toBeCloseTo(0.5 * s.stiffness[0]![0]! + 0.1 * s.stiffness[0]![1]!, 9);
  });

  it.each([
    ['no profile', { contours: [] }, 'empty'],
    [
      'a crossed profile',
      {
        contours: [
          [
            [0, 0],
            [4, 4],
            [4, 0],
            [0, 3],
          ] as Contour,
        ],
      },
      'mesh',
    ],
    ['nothing held', { fixed: () => false }, 'not-held'],
    ['one point held', { fixed: (p: Readonly<Vec2>) => p[0] < 1e-9 && p[1] < 1e-9 }, 'not-held'],
    [
      'a push off the part',
      { prescribed: [{ at: [25, 1] as Vec2, by: [0, 1] as Vec2 }] },
      'push-off-profile',
    ],
    ['a push of no length', { prescribed: [{ at: [20, 1] as Vec2, by: [0, 0] as Vec2 }] }, 'value'],
    ['a modulus of 0', { modulus: 0 }, 'value'],
    ['an incompressible material', { poisson: 0.5 }, 'value'],
    [
      'NaN in the profile',
      {
        contours: [
          [
            [0, 0],
            [Number.NaN, 0],
            [1, 1],
          ] as Contour,
        ],
      },
      'value',
    ],
    [
      'a push on a loose piece',
      {
        contours: [
          bar,
          [
            [30, 0],
            [32, 0],
            [32, 2],
            [30, 2],
          ] as Contour,
        ],
        prescribed: [{ at: [32, 1] as Vec2, by: [0, 1] as Vec2 }],
      },
      'push-not-held',
    ],
  ])('says what is wrong with %s', (_, change, kind) => {
    const result = solvePlaneStress({ ...cantilever, ...change });
    expect(result.ok).toBe(false);
    if (!result.ok) {
      expect(result.problem.kind).toBe(kind);
      expect(result.problem.sentence).toMatch(/^[a-z].*[^.]$/);
    }
  });

  it('passes over a loose piece that nothing pushes', () => {
    const s = solve({
      ...cantilever,
      contours: [
        bar,
        [
          [30, 0],
          [32, 0],
          [32, 2],
          [30, 2],
        ],
      ],
    });
    expect(s.forces[0]! / solve(cantilever).forces[0]!).toBeCloseTo(1, 2);
  });
});
