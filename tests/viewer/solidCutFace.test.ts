import { beforeAll, describe, expect, it } from 'vitest';
import {
  loadKernel,
  type Manifold,
  type ManifoldToplevel,
  type Scope,
  withScope,
} from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { cutFace } from '../../viewer/solid/cutFace.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** A tube with a notch: the cut has a hole, and two pieces where the notch is. */
function notchedTube(scope: Scope): Manifold {
  const { Manifold } = kernel;
  const tube = scope
    .keep(Manifold.cylinder(10, 4, 4, 64))
    .subtract(scope.keep(scope.keep(Manifold.cylinder(12, 2.5, 2.5, 64)).translate(0, 0, -1)));
  const notch = scope.keep(scope.keep(Manifold.cube([20, 1, 3], true)).translate(0, 0, 9));
  return scope.keep(scope.keep(tube).subtract(notch));
}

function areaOf(fill: Float32Array): number {
  let sum = 0;
  for (let t = 0; t < fill.length; t += 9) {
    const [u, v] = [3, 6].map((k) => [0, 1, 2].map((c) => fill[t + k + c]! - fill[t + c]!)) as [
      number[],
      number[],
    ];
    sum += Math.hypot(
      u[1]! * v[2]! - u[2]! * v[1]!,
      u[2]! * v[0]! - u[0]! * v[2]!,
      u[0]! * v[1]! - u[1]! * v[0]!,
    );
  }
  return sum / 2;
}

function lengthOf(lines: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < lines.length; i += 6)
    sum += Math.hypot(
      lines[i + 3]! - lines[i]!,
      lines[i + 4]! - lines[i + 1]!,
      lines[i + 5]! - lines[i + 2]!,
    );
  return sum;
}

describe('cutFace', () => {
  // Manifold's own slice is the other side.
  it.each([0.5, 4.2, 8.3, 9.6])('fills what another library slices, %s mm up', (level) => {
    withScope(kernel, (scope) => {
      const solid = notchedTube(scope);
      const slice = scope.keep(solid.slice(level));
      const { fill, outline } = cutFace(meshOf(solid), { normal: [0, 0, 1], level }, 0);
      expect(Math.abs(areaOf(fill) - slice.area())).toBeLessThan(1e-3 * slice.area());
      const around = (slice.toPolygons() as [number, number][][]).reduce(
        (sum, ring) =>
          sum +
          ring.reduce((s, p, k) => {
            const q = ring[(k + 1) % ring.length]!;
            return s + Math.hypot(q[0] - p[0], q[1] - p[1]);
          }, 0),
        0,
      );
      expect(Math.abs(lengthOf(outline) - around)).toBeLessThan(1e-3 * around);
    });
  });

  it('hatches at 45 degrees as densely as asked, and only what is cut', () => {
    withScope(kernel, (scope) => {
      const mesh = meshOf(notchedTube(scope));
      const spacing = 0.1;
      const { fill, hatching } = cutFace(mesh, { normal: [0, 0, 1], level: 4.2 }, spacing);
      // Lines so far apart cover their length times their distance.
      expect(lengthOf(hatching) * spacing).toBeCloseTo(areaOf(fill), 0);
      for (let i = 0; i < hatching.length; i += 6) {
        const [dx, dy] = [hatching[i + 3]! - hatching[i]!, hatching[i + 4]! - hatching[i + 1]!];
        expect(Math.abs(Math.abs(dx) - Math.abs(dy))).toBeLessThan(1e-4);
        const middle = Math.hypot(hatching[i]! + dx / 2, hatching[i + 1]! + dy / 2);
        expect(middle).toBeLessThan(4.001);
        expect(middle).toBeGreaterThan(2.49);
      }
    });
  });

  it('cuts a solid that is placed elsewhere where it stands', () => {
    withScope(kernel, (scope) => {
      const mesh = meshOf(scope.keep(kernel.Manifold.cube([2, 4, 6], true)));
      // A quarter turn about z brings the side of 4 along x, five to the right.
      const placement = {
        rotation: [0, -1, 0, 1, 0, 0, 0, 0, 1],
        translation: [5, 0, 0],
      } as const;
      const { fill } = cutFace(mesh, { normal: [1, 0, 0], level: 6.5 }, 0, placement);
      expect(areaOf(fill)).toBeCloseTo(12, 4);
      for (let i = 0; i < fill.length; i += 3) expect(fill[i]!).toBeCloseTo(6.5, 3);
      expect(cutFace(mesh, { normal: [1, 0, 0], level: 7.5 }, 0, placement).fill).toHaveLength(0);
    });
  });

  it('cuts along a face without losing it', () => {
    withScope(kernel, (scope) => {
      const mesh = meshOf(scope.keep(kernel.Manifold.cube([2, 2, 2], true)));
      expect(areaOf(cutFace(mesh, { normal: [0, 0, 1], level: -1 }, 0).fill)).toBeCloseTo(4, 3);
    });
  });
});
