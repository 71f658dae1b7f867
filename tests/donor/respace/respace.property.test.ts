import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { respace } from '../../../src/donor/respace/respace.ts';
import { plainSpans } from '../../../src/donor/spans/plainSpans.ts';
import { sectionAt } from '../../../src/donor/spans/section.ts';
import type { DonorMesh } from '../../../src/donor/types.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { anyDonor, between } from './anyDonor.ts';
import { donorOf, isClosed, manifoldOf, surfaceOf, volumeOf } from './donorOf.ts';
import { turned, turnedAxis } from './turned.ts';

const SEED = 20261125;
const RUNS = 30;

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const axes: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

interface Case {
  readonly mesh: DonorMesh;
  readonly axis: Vec3;
  readonly from: number;
  readonly to: number;
  readonly by: number;
  readonly turned: boolean;
  readonly area: number;
  readonly mismatchArea: number;
}

/** Every plain span of random donors, along each of its axes, some longer, some shorter. */
function eachCase(visit: (one: Case) => void): { cases: number } {
  const counts = { cases: 0 };
  fc.assert(
    fc.property(
      anyDonor,
      between(-0.95, 1.5),
      fc.option(between(0.1, 3), { freq: 2 }),
      fc.integer({ min: 1, max: 3 }),
      (shape, share, turn, fine) => {
        // Divided, so that walls have vertices inside their spans.
        const plain = donorOf(scope.keep(realise(scope, shape).refine(fine)));
        const mesh = turn === null ? plain : turned(plain, turn);
        for (const own of axes) {
          const axis = turn === null ? own : turnedAxis(own, turn);
          for (const span of plainSpans(mesh, axis, { rest: 0.01 })) {
            const by = share * (share < 0 ? span.available : span.length);
            if (Math.abs(by) < 1e-6) continue;
            counts.cases++;
            const { from, to, area, mismatchArea } = span;
            visit({ mesh, axis, from, to, by, turned: turn !== null, area, mismatchArea });
          }
        }
        scope.close();
      },
    ),
    { seed: SEED, numRuns: RUNS, endOnFailure: true },
  );
  return counts;
}

const respaced = ({ mesh, axis, from, to, by }: Case): DonorMesh => respace(mesh, axis, [{ from, to, by }]);

test('volume changes by area times length, surface by outline times length, so nothing is folded', () => {
  let redrawn = 0;
  const { cases } = eachCase((one) => {
    const { mesh, axis, from, to, by } = one;
    const after = respaced(one);
    const volume = volumeOf(mesh);
    expect(Math.abs(volumeOf(after) - volume - one.area * by)).toBeLessThan(
      1e-9 * volume + 2 * one.mismatchArea * Math.abs(by),
    );
    const around = sectionAt(mesh, axis, (from + to) / 2).contours.reduce(
      (sum, contour) =>
        sum +
        contour.reduce((length, [x, y], k) => {
          const [p, q] = contour[(k + 1) % contour.length]!;
          return length + Math.hypot(p - x, q - y);
        }, 0),
      0,
    );
    const surface = surfaceOf(mesh);
    // A folded wall would count twice and more where it lies over itself.
    expect(Math.abs(surfaceOf(after) - surface - around * by)).toBeLessThan(2e-7 * surface);
    if (after.triangles !== mesh.triangles) redrawn++;
  });
  expect(cases).toBeGreaterThan(200);
  // The folds that only edges can mend do occur.
  expect(redrawn).toBeGreaterThan(30);
});

test('closed stays closed, with as many vertices, triangles and holes; Manifold agrees', () => {
  let divided = 0;
  const { cases } = eachCase((one) => {
    const after = respaced(one);
    if (after.positions.length !== one.mesh.positions.length) divided++;
    else expect(after.triangles).toHaveLength(one.mesh.triangles.length);
    expect(isClosed(after)).toBe(true);
    expect(manifoldOf(scope, after).genus()).toBe(manifoldOf(scope, one.mesh).genus());
  });
  // The last resort, dividing triangles, is for walls whose triangles nothing else can mend.
  expect(divided).toBeLessThan(0.01 * cases);
});

test('below nothing moves by a bit, above everything moves by the same, inside in proportion', () => {
  let inside = 0;
  eachCase((one) => {
    const { mesh, axis, from, to, by } = one;
    const { positions } = respaced(one);
    for (let i = 0; i < mesh.positions.length; i += 3) {
      const before = [0, 1, 2].map((k) => mesh.positions[i + k]!) as Vec3;
      const level = before[0] * axis[0] + before[1] * axis[1] + before[2] * axis[2];
      const share = Math.max(0, Math.min(1, (level - from) / (to - from)));
      if (share > 1e-9 && share < 1 - 1e-9) inside++;
      for (let k = 0; k < 3; k++) {
        const want = before[k]! + axis[k]! * (share === 1 ? by : by * share);
        const off = Math.abs(positions[i + k]! - want);
        // In a turned frame levels and axis differ in the last bits from those here.
        const exact = !one.turned && (share === 0 || share === 1);
        // One vertex at a time is too many for the test library.
        if (exact ? off !== 0 : off > 1e-10) throw new Error(`vertex ${i / 3} is off by ${off}`);
      }
    }
  });
  expect(inside).toBeGreaterThan(100);
});

test('there and back again is the donor, to a millionth of a micrometre', () => {
  eachCase((one) => {
    const { mesh, axis, from, to, by } = one;
    const back = respace(respaced(one), axis, [{ from, to: to + by, by: -by }]);
    let furthest = 0;
    for (let i = 0; i < mesh.positions.length; i++)
      furthest = Math.max(furthest, Math.abs(back.positions[i]! - mesh.positions[i]!));
    expect(furthest).toBeLessThan(1e-9);
    expect(volumeOf(back)).toBeCloseTo(volumeOf(mesh), 6);
  });
});
