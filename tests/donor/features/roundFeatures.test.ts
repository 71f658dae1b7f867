import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { roundFeatures } from '../../../src/donor/features/roundFeatures.ts';
import type { RoundFeatures } from '../../../src/donor/features/types.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import type { DonorMesh } from '../../../src/donor/types.ts';
import { loadKernel, type Scope, type Manifold as Solid, withScope } from '../../../src/solid/kernel.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import {
  as32,
  type Built,
  blockWithRounds,
  donorOf,
  drawPose,
  drawsOf,
  mapped,
  type Pose,
  posed,
  turned,
  withEdgesHalved,
  withNoise,
} from './syntheticDonor.ts';

const kernel = await loadKernel();
const SEED = 20261125;

const model = (name: string): DonorMesh =>
  readDonor(new Uint8Array(readFileSync(`tests/donor/models/${name}`)), name).mesh;
const apart = (a: Readonly<Vec3>, b: Readonly<Vec3>): number => Math.hypot(...a.map((x, k) => x - b[k]!));

/** A solid made by `of`, in some pose, as a 32-bit file keeps it. */
function solid(of: (scope: Scope) => Solid, seed = SEED): { mesh: DonorMesh; pose: Pose } {
  return withScope(kernel, (scope) => {
    const pose = drawPose(drawsOf(seed), 20);
    return { mesh: as32(mapped(donorOf(of(scope)), (v) => posed(pose, v))), pose };
  });
}
const found = (of: (scope: Scope) => Solid): RoundFeatures => roundFeatures(solid(of).mesh);

/** Block centred on the origin, and rod along z from the origin or around it. */
const cube = (scope: Scope, size: Vec3, at: Vec3 = [0, 0, 0]) =>
  scope.keep(scope.keep(kernel.Manifold.cube(size, true)).translate(at));
const rod = (scope: Scope, d: number, n: number, long = 100, at: Vec3 = [0, 0, 0], centred = true) =>
  scope.keep(scope.keep(kernel.Manifold.cylinder(long, d / 2, d / 2, n, centred)).translate(at));
const cut = (scope: Scope, ...of: Solid[]) => scope.keep(kernel.Manifold.difference(of));

interface Tally {
  built: number;
  found: number;
  more: number;
  wrong: number;
}

/** Looks for what was built in random blocks; `spoil` changes the mesh, `scale` the unit. */
function tally(
  parts: number,
  near: number,
  spoil: (mesh: DonorMesh, seed: number) => DonorMesh,
  scale = 1,
): Tally {
  const sum: Tally = { built: 0, found: 0, more: 0, wrong: 0 };
  for (let i = 0; i < parts; i++) {
    withScope(kernel, (scope) => {
      const draws = drawsOf(SEED + i);
      const { mesh, built } = blockWithRounds(scope, draws);
      const pose = drawPose(draws, 50);
      const scaled = mapped(spoil(mesh, i), (v) => posed(pose, v).map((c) => c * scale) as Vec3);
      const { bores, posts } = roundFeatures(as32(scaled));
      const left = [...bores, ...posts];
      for (const one of built) {
        sum.built++;
        const index = left.findIndex(
          (feature) => feature.kind === one.kind && matches(feature, one, pose, near, scale),
        );
        if (index === -1) continue;
        sum.found++;
        const [feature] = left.splice(index, 1);
        if (feature?.kind === 'bore' && feature.through !== one.through) sum.wrong++;
      }
      sum.more += left.length;
    });
  }
  return sum;
}

/** Sizes against the polygon that was built: corners on the circle, flats nearer by cos(half the step). */
function matches(
  feature: RoundFeatures['bores'][number] | RoundFeatures['posts'][number],
  one: Built,
  pose: Pose,
  near: number,
  scale: number,
): boolean {
  const long = feature.kind === 'bore' ? feature.depth : feature.length;
  const axis = turned(pose, [0, 0, 1]);
  return (
    apart(feature.at, posed(pose, one.at).map((c) => c * scale) as Vec3) < near * scale &&
    Math.abs(feature.diameter / scale - one.diameter) < near &&
    Math.abs(feature.circumscribed / scale - one.diameter) < near &&
    Math.abs(feature.inscribed / scale - one.inscribed) < near &&
    Math.abs(long / scale - one.depth) < near &&
    Math.abs(Math.abs(axis.reduce((sum, a, k) => sum + a * feature.axis[k]!, 0)) - 1) < 1e-4
  );
}

it('finds every bore and post of random blocks, each with its size, and nothing else', () => {
  const { built, ...rest } = tally(200, 1e-4, (mesh) => mesh);
  expect(built).toBeGreaterThan(400);
  expect(rest).toEqual({ found: built, more: 0, wrong: 0 });
});

it('is not misled by vertices amid edges', () => {
  const { built, ...rest } = tally(100, 1e-4, (mesh, i) => withEdgesHalved(mesh, drawsOf(i), 0.3));
  expect(built).toBeGreaterThan(200);
  expect(rest).toEqual({ found: built, more: 0, wrong: 0 });
});

it('bears noise of a ten-thousandth of a millimetre', () => {
  const { built, ...rest } = tally(100, 2e-3, (mesh, i) => withNoise(mesh, drawsOf(i), 1e-4));
  expect(built).toBeGreaterThan(200);
  expect(rest).toEqual({ found: built, more: 0, wrong: 0 });
});

it.each([
  ['inches', 1 / 25.4],
  ['metres', 1e-3],
])('sees the same in a file in %s', (_, scale) => {
  const { built, ...rest } = tally(60, 1e-3, (mesh) => mesh, scale);
  expect(rest).toEqual({ found: built, more: 0, wrong: 0 });
});

const { Manifold, CrossSection } = kernel;
const ring = (scope: Scope, far: number, thick: number, around: number, n: number) => {
  const circle = scope.keep(scope.keep(CrossSection.circle(thick, n)).translate(far, 0));
  return scope.keep(circle.revolve(around));
};
const rounded = (scope: Scope, wide: number, long: number, r: number) => {
  const square = scope.keep(CrossSection.square([wide - 2 * r, long - 2 * r], true));
  return scope.keep(scope.keep(square.offset(r, 'Round', 2, 32)).extrude(5));
};

it.each<[string, (scope: Scope) => Solid]>([
  ['a block', (s) => cube(s, [30, 20, 10])],
  ['a ball of 17 facets around', (s) => s.keep(Manifold.sphere(10, 17))],
  ['a ball of 64', (s) => s.keep(Manifold.sphere(10, 64))],
  ['a ball of 200', (s) => s.keep(Manifold.sphere(10, 200))],
  ['a ring', (s) => ring(s, 10, 3, 48, 24)],
  ['a fine ring', (s) => ring(s, 10, 3, 128, 65)],
  ['a cone', (s) => s.keep(Manifold.cylinder(10, 5, 3, 64))],
  ['a peg with one degree of draft', (s) => s.keep(Manifold.cylinder(10, 5, 4.825, 64))],
  ['a block with rounded corners', (s) => rounded(s, 20, 12, 3)],
  ['a pocket with rounded corners', (s) => cut(s, cube(s, [30, 20, 6]), rounded(s, 20, 12, 3))],
  [
    'a square peg with its corners taken off',
    (s) => s.keep(Manifold.hull([cube(s, [10, 9, 5]), cube(s, [9, 10, 5])])),
  ],
  [
    'a block with all edges rounded',
    (s) =>
      s.keep(
        Manifold.hull(
          [0, 20].flatMap((x) =>
            [0, 15].flatMap((y) =>
              [0, 10].map((z) => s.keep(s.keep(Manifold.sphere(3, 24)).translate(x, y, z))),
            ),
          ),
        ),
      ),
  ],
  [
    'a lattice',
    (s) =>
      s.keep(
        Manifold.union(
          [0, 6, 12, 18].flatMap((a) =>
            [0, 6, 12, 18].flatMap((b) => [
              cube(s, [20, 1, 1], [9, a, b]),
              cube(s, [1, 20, 1], [a, 9, b]),
              cube(s, [1, 1, 20], [a, b, 9]),
            ]),
          ),
        ),
      ),
  ],
  [
    'a curved lattice',
    (s) => {
      const w = (2 * Math.PI) / 10;
      const sheet = ([x, y, z]: readonly number[]) =>
        Math.sin(x! * w) * Math.cos(y! * w) +
        Math.sin(y! * w) * Math.cos(z! * w) +
        Math.sin(z! * w) * Math.cos(x! * w);
      return s.keep(Manifold.levelSet(sheet, { min: [0, 0, 0], max: [12, 12, 12] }, 0.6));
    },
  ],
  [
    'a toothed wheel',
    (s) => {
      const teeth = Array.from({ length: 40 }, (_, i) =>
        [8, 10, 10, 8].map((r, k): [number, number] => {
          const angle = (2 * Math.PI * (i + [0, 0.2, 0.5, 0.7][k]!)) / 40;
          return [r * Math.cos(angle), r * Math.sin(angle)];
        }),
      ).flat();
      return s.keep(s.keep(CrossSection.ofPolygons([teeth])).extrude(5));
    },
  ],
])('finds no bore or post on %s', (_, of) => {
  const { bores, posts } = found(of);
  expect([...bores, ...posts].map(({ diameter }) => diameter)).toEqual([]);
});

it('says how much of the turn an open round covers, and calls it neither bore nor post', () => {
  const quarter = found((s) => rounded(s, 20, 12, 3)).arcs;
  expect(quarter.map(({ coverage, hollow }) => [coverage, hollow])).toEqual(
    Array.from({ length: 4 }, () => [expect.closeTo(0.25, 2), false]),
  );
  // A mouth 4 wide in a bore of 8: open by 2 asin(1/2), a sixth of the turn, and not quite a bore any more.
  const clip = found((s) => cut(s, rod(s, 12, 64, 8), rod(s, 8, 64), cube(s, [10, 4.2, 20], [5, 0, 0])));
  expect(clip.bores).toEqual([]);
  expect(clip.arcs[0]).toMatchObject({ hollow: true, diameter: expect.closeTo(8, 4) });
  expect(clip.arcs[0]!.coverage).toBeGreaterThan(0.8);
});

it('takes a bore with a keyway for a bore', () => {
  const { bores } = found((s) =>
    cut(s, cube(s, [30, 30, 8]), rod(s, 16, 64), cube(s, [4, 4, 20], [8, 0, 0])),
  );
  expect(bores).toMatchObject([{ diameter: expect.closeTo(16, 4), through: true }]);
  expect(bores[0]!.coverage).toBeCloseTo(1 - (2 * Math.asin(2 / 8)) / (2 * Math.PI), 1);
});

it('keeps bores that cross, slanted mouths and tangent fillets apart from what is round', () => {
  const crossing = found((s) =>
    cut(s, cube(s, [30, 30, 30]), rod(s, 10, 64), s.keep(rod(s, 4, 48).rotate(90, 0, 0))),
  );
  // The small one comes out of the wide one: 15 - sqrt(25 - 4) of it is left each side, counted to the farthest point of its rim.
  expect(crossing.bores.map(({ diameter, depth, through }) => [diameter, depth, through])).toEqual([
    [expect.closeTo(10, 4), expect.closeTo(30, 4), true],
    ...Array.from({ length: 2 }, () => [expect.closeTo(4, 4), expect.closeTo(15 - Math.sqrt(21), 1), true]),
  ]);
  const slanted = found((s) => cut(s, s.keep(cube(s, [40, 40, 10]).rotate(30, 0, 0)), rod(s, 8, 48)));
  expect(slanted.bores).toMatchObject([{ diameter: expect.closeTo(8, 4), through: true }]);
  // 10 / cos 30 between the faces, and the slant across the bore.
  expect(slanted.bores[0]!.depth).toBeCloseTo(10 / Math.cos(Math.PI / 6) + 8 * Math.tan(Math.PI / 6), 1);
  const capsule = found((s) =>
    s.keep(Manifold.hull([0, 10].map((z) => s.keep(s.keep(Manifold.sphere(3, 48)).translate(0, 0, z))))),
  );
  expect(capsule.posts).toMatchObject([{ diameter: expect.closeTo(6, 4), length: expect.closeTo(10, 4) }]);
});

it('tells floors, steps and open ends', () => {
  const pointed = found((s) =>
    cut(
      s,
      cube(s, [30, 30, 20]),
      rod(s, 6, 48, 30, [0, 0, 0], false),
      s.keep(s.keep(Manifold.cylinder(1.8, 0.001, 3, 48)).translate(0, 0, -1.8)),
      rod(s, 10, 48, 30, [0, 0, 6], false),
    ),
  );
  expect(
    pointed.bores.map(({ diameter, depth, through, ends }) => [diameter, depth, through, [...ends].sort()]),
  ).toEqual([
    [expect.closeTo(10, 4), expect.closeTo(4, 4), false, ['open', expect.any(String)].sort()],
    [expect.closeTo(6, 4), expect.closeTo(6, 4), false, ['floor', 'open']],
  ]);
});

it('recognises pockets', () => {
  const plate = (s: Scope) => cube(s, [40, 30, 4]);
  const slot = (s: Scope) => {
    const line = s.keep(CrossSection.square([10, 1e-4], true));
    return s.keep(s.keep(line.offset(3, 'Round', 2, 48)).extrude(5));
  };
  expect(found((s) => cut(s, plate(s), slot(s))).pockets).toMatchObject([
    {
      kind: 'slot',
      width: expect.closeTo(6, 3),
      length: expect.closeTo(16, 3),
      depth: expect.closeTo(2, 4),
      through: false,
    },
  ]);
  // Across flats is cos 30 of across corners.
  expect(found((s) => cut(s, plate(s), rod(s, 8, 6))).pockets).toMatchObject([
    {
      kind: 'hexagon',
      width: expect.closeTo(8 * Math.cos(Math.PI / 6), 4),
      length: expect.closeTo(8, 4),
      through: true,
    },
  ]);
  expect(found((s) => cut(s, plate(s), cube(s, [6, 4, 4], [5, 5, 1.5]))).pockets).toMatchObject([
    {
      kind: 'rectangle',
      width: expect.closeTo(4, 4),
      length: expect.closeTo(6, 4),
      depth: expect.closeTo(2.5, 4),
      through: false,
    },
  ]);
});

it('names the largest first, equal ones by place, whatever the order of the triangles', () => {
  const plate = solid((s) =>
    cut(s, cube(s, [60, 40, 5]), ...[-20, 0, 20].map((x) => rod(s, x === 0 ? 8 : 5, 32, 20, [x, 4, 0]))),
  ).mesh;
  const names = ({ bores }: RoundFeatures) =>
    bores.map(({ id, at }) => [id, at.map((c) => c.toFixed(4)).join()]);
  const backwards = plate.triangles.slice();
  for (let t = 0; t < backwards.length; t += 3)
    backwards.set(plate.triangles.subarray(backwards.length - t - 3, backwards.length - t), t);
  const first = roundFeatures(plate);
  expect(first.bores.map(({ diameter }) => Math.round(diameter))).toEqual([8, 5, 5]);
  expect(names(roundFeatures({ ...plate, triangles: backwards }))).toEqual(names(first));
});

it('finds what is on models that nobody here made', () => {
  // Corners on circles of the sizes their draughtsman must have typed, in inches: 7/16, 17/64 to three digits, 2; the cross bore is
  // 0.3894 in by a plain look at its rim.
  const feature = roundFeatures(model('featuretype.STL'));
  expect(feature.bores.map(({ diameter }) => Number(diameter.toFixed(4)))).toEqual([
    ...Array.from({ length: 8 }, () => 0.4375),
    expect.closeTo(0.3894, 3),
    ...Array.from({ length: 8 }, () => 0.266),
  ]);
  expect(feature.bores.every(({ through }) => through)).toBe(true);
  expect(feature.posts).toEqual([]);
  const riser = roundFeatures(model('idler_riser.STL'));
  expect(riser.posts).toMatchObject([{ diameter: expect.closeTo(2, 5) }]);
  expect(riser.bores.map(({ diameter }) => Number(diameter.toFixed(4)))).toEqual([0.196, 0.196]);
  // 7/16 and 0.266 in again, in mm this time.
  const plate = roundFeatures(model('plate_holes.STL'));
  expect(plate.bores.map(({ diameter }) => Number((diameter / 25.4).toFixed(4)))).toEqual([
    0.4375,
    ...Array.from({ length: 5 }, () => 0.266),
  ]);
  const turnedPart = roundFeatures(model('round.stl'));
  expect(turnedPart.posts).toMatchObject([
    { diameter: expect.closeTo(5.08, 4), length: expect.closeTo(60.96, 3) },
  ]);
  expect(turnedPart.bores).toMatchObject([{ diameter: expect.closeTo(4.4704, 4), through: true }]);
});
