import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Contour } from '../../src/solid/vector.ts';
import type { ProfileMesh } from '../../src/strength/profileMesh.ts';
import { profileMesh } from '../../src/strength/profileMesh.ts';

const fineness = { ofThickness: 0.4, turn: 0.4, growth: 0.5, smallest: 0.02, largest: 2, at: [] };

/** Every invariant of a mesh: finite, right way round, every edge met twice or on the boundary, the area stated. */
function sound(mesh: ProfileMesh, area: number, tolerance: number): void {
  let sum = 0;
  const edges = new Map<string, number>();
  for (let t = 0; t < mesh.triangles.length; t += 6) {
    const [a, b, c] = [0, 1, 2].map((k) => mesh.triangles[t + k]!) as [number, number, number];
    const x = (n: number) => mesh.nodes[2 * n]!;
    const y = (n: number) => mesh.nodes[2 * n + 1]!;
    const twice = (x(b) - x(a)) * (y(c) - y(a)) - (y(b) - y(a)) * (x(c) - x(a));
    expect(twice).toBeGreaterThan(0);
    sum += twice / 2;
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const key = p < q ? `${p} ${q}` : `${q} ${p}`;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
  }
  expect(Math.abs(sum - area)).toBeLessThanOrEqual(tolerance * area);
  expect([...edges.values()].filter((n) => n === 1)).toHaveLength(mesh.boundary.length / 3);
  expect([...edges.values()].every((n) => n <= 2)).toBe(true);
  expect(mesh.nodes.every(Number.isFinite)).toBe(true);
  expect(Math.max(...mesh.triangles)).toBe(mesh.nodes.length / 2 - 1);
}

const circle = (r: number, n: number, x = 0, y = 0): Contour =>
  Array.from({ length: n }, (_, i) => [
    x + r * Math.cos((2 * Math.PI * i) / n),
    y + r * Math.sin((2 * Math.PI * i) / n),
  ]);

describe('profileMesh', () => {
  it('meshes a rectangle exactly', () => {
    const mesh = profileMesh(
      [
        [
          [0, 0],
          [20, 0],
          [20, 2],
          [0, 2],
        ],
      ],
      fineness,
    );
    sound(mesh!, 40, 1e-12);
  });

  it('meshes a plate with a round hole, its corners kept and its middle nodes on the curve', () => {
    const mesh = profileMesh(
      [
        [
          [-5, -5],
          [5, -5],
          [5, 5],
          [-5, 5],
        ],
        circle(1, 200).reverse(),
      ],
      fineness,
    )!;
    sound(mesh, 100 - Math.PI, 0.003);
    let onHole = 0;
    for (let e = 0; e < mesh.boundary.length; e += 3) {
      const m = mesh.boundary[e + 2]!;
      const r = Math.hypot(mesh.nodes[2 * m]!, mesh.nodes[2 * m + 1]!);
      if (r > 2) continue;
      onHole++;
      expect(r).toBeCloseTo(1, 3);
    }
    expect(onHole).toBeGreaterThan(12);
  });

  it('is the same mesh for the same profile', () => {
    const profile = () => profileMesh([circle(3, 90), circle(1, 60, 0.5).reverse()], fineness);
    expect(profile()).toEqual(profile());
  });

  it('meshes any star of up to 60 corners, however sharp', () => {
    let meshed = 0;
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1, max: 4, noNaN: true }), { minLength: 5, maxLength: 60 }),
        (radii) => {
          const star: Contour = radii.map((r, i) => {
            const a = (2 * Math.PI * i) / radii.length;
            return [r * Math.cos(a), r * Math.sin(a)];
          });
          const mesh = profileMesh([star], fineness);
          const area = star.reduce((s, p, i) => {
            const q = star[(i + 1) % star.length]!;
            return s + (p[0] * q[1] - q[0] * p[1]) / 2;
          }, 0);
          expect(mesh).not.toBeNull();
          sound(mesh!, area, 0.05);
          meshed++;
        },
      ),
      { seed: 3, numRuns: 60 },
    );
    expect(meshed).toBe(60);
  });

  it('gives nothing for no contour, a line, or contours the wrong way round', () => {
    expect(profileMesh([], fineness)).toBeNull();
    expect(
      profileMesh(
        [
          [
            [0, 0],
            [1, 0],
          ],
        ],
        fineness,
      ),
    ).toBeNull();
    expect(
      profileMesh(
        [
          [
            [0, 0],
            [0, 2],
            [2, 2],
            [2, 0],
          ],
        ],
        fineness,
      ),
    ).toBeNull();
  });

  it('gives nothing for a bow tie', () => {
    expect(
      profileMesh(
        [
          [
            [0, 0],
            [4, 4],
            [4, 0],
            [0, 3],
          ],
        ],
        fineness,
      ),
    ).toBeNull();
  });
});
