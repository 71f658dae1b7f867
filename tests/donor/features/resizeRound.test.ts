import { expect, it } from 'vitest';
import { ResizeRefusal } from '../../../src/donor/features/resizeRefusal.ts';
import { resizeRound } from '../../../src/donor/features/resizeRound.ts';
import { roundFeatures } from '../../../src/donor/features/roundFeatures.ts';
import type { Bore, Post } from '../../../src/donor/features/types.ts';
import type { DonorMesh } from '../../../src/donor/types.ts';
import { loadKernel, type Scope, type Manifold as Solid, withScope } from '../../../src/solid/kernel.ts';
import { soundnessOf } from '../../../src/solid/soundness.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import {
  as32,
  blockWithRounds,
  donorOf,
  drawPose,
  drawsOf,
  mapped,
  posed,
  withEdgesHalved,
} from './syntheticDonor.ts';

const kernel = await loadKernel();
const SEED = 20261125;
const { Manifold } = kernel;

const sound = ({ positions, triangles }: DonorMesh) =>
  soundnessOf({ positions: Float32Array.from(positions), triangles });
/** In double precision: `soundnessOf` sees what a file holds. */
const volumeOf = ({ positions: p, triangles }: DonorMesh): number => {
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    six +=
      p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) +
      p[a + 1]! * (p[b + 2]! * p[c]! - p[b]! * p[c + 2]!) +
      p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!);
  }
  return six / 6;
};
const mesh = (of: (scope: Scope) => Solid): DonorMesh => withScope(kernel, (scope) => donorOf(of(scope)));
const cube = (scope: Scope, size: Vec3, at: Vec3 = [0, 0, 0]) =>
  scope.keep(scope.keep(Manifold.cube(size, true)).translate(at));
const rod = (scope: Scope, d: number, n: number, long = 100, at: Vec3 = [0, 0, 0]) =>
  scope.keep(scope.keep(Manifold.cylinder(long, d / 2, d / 2, n, true)).translate(at));
const cut = (scope: Scope, ...of: Solid[]) => scope.keep(Manifold.difference(of));
const bores = (donor: DonorMesh): readonly Bore[] => roundFeatures(donor).bores;
const refused = (work: () => unknown): ResizeRefusal => {
  try {
    work();
  } catch (error) {
    if (error instanceof ResizeRefusal) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

/** Area of a regular polygon of n corners on a circle of diameter d. */
const polygon = (n: number, d: number): number => ((n * d * d) / 8) * Math.sin((2 * Math.PI) / n);

it('opens a bore by exactly the ring between two polygons', () => {
  const plate = mesh((s) => cut(s, cube(s, [30, 20, 4]), rod(s, 3, 32)));
  const [bore] = bores(plate);
  const opened = resizeRound(kernel, plate, bore!, 3.4);
  expect(opened.by).toBe('moved');
  const corners = 3.4 / Math.cos(Math.PI / 32);
  expect(volumeOf(plate) - volumeOf(opened)).toBeCloseTo(4 * (polygon(32, corners) - polygon(32, 3)), 5);
  expect(bores(opened)).toMatchObject([
    { inscribed: expect.closeTo(3.4, 6), circumscribed: expect.closeTo(corners, 5) },
  ]);
  expect(bores(opened)[0]!.inscribed).toBeGreaterThanOrEqual(3.4 - 1e-9);
  expect(resizeRound(kernel, opened, bores(opened)[0]!, bores(opened)[0]!.inscribed).by).toBe('same');
});

it('carries a countersink along with the width it has', () => {
  const plate = mesh((s) =>
    cut(
      s,
      cube(s, [30, 20, 10]),
      rod(s, 4, 48),
      s.keep(s.keep(Manifold.cylinder(1, 2, 3, 48)).translate(0, 0, 4)),
    ),
  );
  const opened = resizeRound(kernel, plate, bores(plate)[0]!, 4.6);
  expect(opened.by).toBe('moved');
  expect(bores(opened)[0]!.depth).toBeCloseTo(9, 5);
  const rim = Math.max(
    ...Array.from({ length: opened.positions.length / 3 }, (_, v) => v)
      .filter((v) => Math.abs(opened.positions[3 * v]!) < 10)
      .map((v) => Math.hypot(opened.positions[3 * v]!, opened.positions[3 * v + 1]!)),
  );
  // The bore's corners went out from 2 to 2.3 / cos(180 / 48), so the countersink's from 3 by as much.
  expect(rim).toBeCloseTo(3 + 2.3 / Math.cos(Math.PI / 48) - 2, 5);
});

it('changes random bores and posts, keeps the model closed and all else where it was', () => {
  const tally: Record<string, number> = {};
  for (let i = 0; i < 60; i++) {
    withScope(kernel, (scope) => {
      const draws = drawsOf(SEED + i);
      const { mesh: block } = blockWithRounds(scope, draws);
      const pose = drawPose(draws, 30);
      const spoilt = draws.chance(0.3) ? withEdgesHalved(block, draws, 0.2) : block;
      const donor = as32(mapped(spoilt, (v) => posed(pose, v)));
      const before = roundFeatures(donor);
      const { genus, openEdges, crowdedEdges, flatTriangles } = sound(donor);
      if (openEdges + crowdedEdges + flatTriangles > 0) return;
      for (const one of [...before.bores, ...before.posts]) {
        const diameter = (one.kind === 'bore' ? one.inscribed : one.circumscribed) * draws.between(0.7, 1.35);
        try {
          const changed = resizeRound(kernel, donor, one, diameter);
          tally[changed.by] = (tally[changed.by] ?? 0) + 1;
          expect(sound(changed)).toMatchObject({ genus, openEdges: 0, crowdedEdges: 0, flatTriangles: 0 });
          // A tool of a boolean is rounded to 32 bits, and kept on the safe side of that.
          expect(Math.abs(sizeAt(changed, one) - diameter)).toBeLessThan(changed.by === 'cut' ? 1e-4 : 2e-6);
          expect(movedElsewhere(donor, changed, one)).toBe(0);
        } catch (error) {
          if (!(error instanceof ResizeRefusal)) throw error;
          tally[error.code] = (tally[error.code] ?? 0) + 1;
          expect(['round_breaks_through', 'round_meets_other', 'round_not_closed']).toContain(error.code);
        }
      }
    });
  }
  expect(tally.moved).toBeGreaterThan(100);
  // What could not be done for want of a way, and not for want of room, is rare.
  expect(tally.round_not_closed ?? 0).toBeLessThan(3);
});

/** Inscribed diameter of the bore, circumscribed of the post, nearest to where one was. */
function sizeAt(donor: DonorMesh, { kind, at }: Bore | Post): number {
  const { bores: all, posts } = roundFeatures(donor);
  const off = (one: Bore | Post) => Math.hypot(...one.at.map((c, k) => c - at[k]!));
  const [nearest] = [...(kind === 'bore' ? all : posts)].sort((a, b) => off(a) - off(b));
  return kind === 'bore' ? nearest!.inscribed : nearest!.circumscribed;
}

/** Vertices off the feature's wall that are not, to the last bit, where a vertex of the donor was. */
function movedElsewhere(
  donor: DonorMesh,
  changed: DonorMesh & { by: string },
  { wall }: Bore | Post,
): number {
  if (changed.by === 'cut') return 0;
  const own = new Set([...wall].flatMap((t) => [...donor.triangles.subarray(3 * t, 3 * t + 3)]));
  let moved = 0;
  for (let v = 0; v < donor.positions.length / 3; v++) {
    if (own.has(v)) continue;
    for (let k = 0; k < 3; k++) if (donor.positions[3 * v + k] !== changed.positions[3 * v + k]) moved++;
  }
  return moved;
}

it('drills where a wall cannot be moved, and leaves doubles elsewhere as they were', () => {
  // Both mouths lie in round surfaces.
  const tube = mesh((s) =>
    cut(
      s,
      rod(s, 20, 64, 40),
      rod(s, 12, 64),
      s.keep(s.keep(rod(s, 3, 32, 20).rotate(90, 0, 0)).translate(0, 10, 0)),
    ),
  );
  const scaled = mapped(tube, (v) => v.map((c) => c * 1.0000001) as Vec3);
  const cross = bores(scaled).find(({ diameter }) => Math.abs(diameter - 3) < 0.01);
  const drilled = resizeRound(kernel, scaled, cross!, 4);
  expect(drilled.by).toBe('cut');
  expect(sound(drilled)).toMatchObject({ openEdges: 0, crowdedEdges: 0, flatTriangles: 0, genus: 2 });
  const size = bores(drilled).find(({ diameter }) => Math.abs(diameter - 4) < 0.05)!;
  expect(size.inscribed).toBeGreaterThanOrEqual(4);
  expect(size.inscribed).toBeLessThan(4 + 1e-4);
  const known = new Set(Array.from(scaled.positions));
  const ends = Array.from(drilled.positions)
    .filter((_, i) => i % 3 === 2)
    .filter((z) => Math.abs(z) > 19);
  expect(ends.length).toBeGreaterThan(100);
  expect(ends.every((z) => known.has(z))).toBe(true);
});

it('refuses what would break through, with the size that would still do', () => {
  const lug = mesh((s) => cut(s, rod(s, 6, 64, 5), rod(s, 3, 32)));
  const open = refused(() => resizeRound(kernel, lug, bores(lug)[0]!, 6.2));
  expect(open).toMatchObject({
    code: 'round_breaks_through',
    subject: 'bore1',
    given: 'diameter 6.2 leaves no wall',
  });
  // Corners of the bore, on 1 / cos(180 / 32) of what its flats clear, meet the flats of the lug.
  const limit = 6 * Math.cos(Math.PI / 64) * Math.cos(Math.PI / 32);
  expect(Number(/below ([\d.]+)/.exec(open.allowed)?.[1])).toBeCloseTo(limit, 3);
  expect(resizeRound(kernel, lug, bores(lug)[0]!, 5.9).by).toBe('moved');
  const [post] = roundFeatures(lug).posts;
  expect(refused(() => resizeRound(kernel, lug, post!, 2.9)).code).toBe('round_breaks_through');
  // A hollow that shows at neither mouth.
  const hollow = mesh((s) => cut(s, cube(s, [30, 20, 10]), rod(s, 4, 32), cube(s, [4, 4, 4], [6, 0, 0])));
  expect(refused(() => resizeRound(kernel, hollow, bores(hollow)[0]!, 8.2)).code).toBe(
    'round_breaks_through',
  );
});

it('refuses a post that would run into its neighbour, or past what it stands on', () => {
  const two = mesh((s) =>
    s.keep(
      Manifold.union([cube(s, [20, 10, 4]), rod(s, 3, 32, 20, [-2, 0, 10]), rod(s, 3, 32, 20, [3, 0, 10])]),
    ),
  );
  const [post] = roundFeatures(two).posts;
  expect(refused(() => resizeRound(kernel, two, post!, 7.2)).code).toBe('round_meets_other');
  const lone = mesh((s) => s.keep(Manifold.union([cube(s, [20, 10, 4]), rod(s, 3, 32, 20, [0, 0, 10])])));
  expect(refused(() => resizeRound(kernel, lone, roundFeatures(lone).posts[0]!, 10.5)).code).toBe(
    'round_meets_other',
  );
  expect(refused(() => resizeRound(kernel, lone, roundFeatures(lone).posts[0]!, 0)).code).toBe(
    'diameter_not_positive',
  );
});

it('finds a feature again after the model was re-spaced or its triangles renumbered', () => {
  const plate = mesh((s) =>
    cut(s, cube(s, [40, 20, 4]), rod(s, 3, 32, 20, [-10, 0, 0]), rod(s, 3, 32, 20, [10, 0, 0])),
  );
  const [left] = bores(plate);
  expect(left!.at[0]).toBeCloseTo(-10, 5);
  const longer = mapped(plate, ([x, y, z]) => [x < -5 ? x - 7 : x, y, z]);
  const opened = resizeRound(kernel, longer, left!, 3.5);
  expect(bores(opened).map(({ at, inscribed }) => [Math.round(at[0]), Number(inscribed.toFixed(3))])).toEqual(
    [
      [-17, 3.5],
      [10, expect.closeTo(3 * Math.cos(Math.PI / 32), 3)],
    ],
  );
  const turnedRound = { ...plate, triangles: Uint32Array.from([...plate.triangles].reverse()) };
  for (let t = 0; t < turnedRound.triangles.length; t += 3)
    turnedRound.triangles.subarray(t, t + 3).reverse();
  expect(Math.round(bores(resizeRound(kernel, turnedRound, left!, 3.5))[0]!.at[0])).toBe(-10);
  const bare = mesh((s) => cube(s, [10, 10, 10]));
  expect(refused(() => resizeRound(kernel, bare, left!, 3.5)).code).toBe('round_not_found');
});
