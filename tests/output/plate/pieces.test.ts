// Shadows against polygon-clipping, merged meshes against sums of their parts.
import { DOMParser } from '@xmldom/xmldom';
import polygonClipping, { type Polygon } from 'polygon-clipping';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  mergedMesh,
  placementOf,
  plateOf,
  shadowOf,
  type Turn,
  topView,
} from '../../../src/output/plate/index.ts';
import { outlineGap } from '../../../src/output/plate/outlineGap.ts';
import { stl } from '../../../src/output/stl.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import type { Mesh } from '../../../src/solid/mesh.ts';
import { meshOf } from '../../../src/solid/meshOf.ts';
import { place } from '../../../src/solid/placement.ts';
import type { Contour } from '../../../src/solid/vector.ts';
import { cube, prism, volumeOf } from '../meshes.ts';
import { readStl } from '../readStl.ts';
import { apart, areaOf, extent } from './apart.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** A ring that stands on a foot, so that seen from above it has a hole, and a disc in that hole. */
const ringAndDisc = (): Mesh =>
  withScope(kernel, (scope) => {
    const tube = (outer: number, inner: number, height: number) =>
      scope.keep(
        scope
          .keep(kernel.Manifold.cylinder(height, outer, outer, 64))
          .subtract(scope.keep(kernel.Manifold.cylinder(height, inner, inner, 64))),
      );
    return meshOf(
      scope.keep(kernel.Manifold.union([tube(20, 12, 5), scope.keep(kernel.Manifold.cylinder(9, 4, 4, 32))])),
    );
  });

/** Two arms of different lengths, a mast on the long one and a cap on the mast that overhangs: nothing about it is even. */
const bracket = (): Mesh =>
  withScope(kernel, (scope) => {
    const box = (x: number, y: number, z: number) => scope.keep(kernel.Manifold.cube([x, y, z]));
    const mast = scope.keep(scope.keep(kernel.Manifold.cylinder(20, 2, 2, 24)).translate([24, 5, 0]));
    const cap = scope.keep(scope.keep(kernel.Manifold.cylinder(3, 9, 9, 40)).translate([24.4, 5, 20]));
    return meshOf(scope.keep(kernel.Manifold.union([box(30, 10, 4), box(6, 21, 12), mast, cap])));
  });

/** Area of all triangles seen from above, put together by another library. */
function areaFromAbove({ positions, triangles }: Mesh, holes: boolean): number {
  const all: Polygon[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const ring = [0, 1, 2].map((k): [number, number] => {
      const v = 3 * triangles[t + k]!;
      return [positions[v]!, positions[v + 1]!];
    });
    if (Math.abs(areaOf([ring])) > 1e-9) all.push([ring]);
  }
  const [first, ...others] = all;
  const united = polygonClipping.union(first!, ...others);
  const filled = polygonClipping.union(
    united.map(([outer]) => [outer!])[0]!,
    ...united.slice(1).map(([outer]) => [outer!]),
  );
  // Rings come closed, their last point the first one again, which adds nothing.
  return (holes ? united : filled).reduce(
    (sum, rings) => sum + rings.reduce((part, ring) => part + areaOf([ring]), 0),
    0,
  );
}

describe('the shadow', () => {
  it.each([
    ['a cube', () => cube(7)],
    ['a prism', () => prism(11, 20, 3)],
    ['a bracket with a latch', () => bracket()],
  ])('of %s covers what another library finds', (_, mesh) => {
    const shadow = shadowOf(kernel, mesh());
    expect(areaOf(shadow)).toBeCloseTo(areaFromAbove(mesh(), false), 4);
    for (const contour of shadow) expect(areaOf([contour])).toBeGreaterThan(0);
  });

  it('has its holes filled, and what stands in them is part of it', () => {
    const mesh = ringAndDisc();
    const shadow = shadowOf(kernel, mesh);
    expect(shadow).toHaveLength(1);
    // A polygon of 64 sides in a circle of 20: n/2 r^2 sin(2 pi/n).
    expect(areaOf(shadow)).toBeCloseTo(32 * 400 * Math.sin((2 * Math.PI) / 64), 3);
    expect(areaFromAbove(mesh, true)).toBeLessThan(areaOf(shadow));
  });
});

describe('the gap of two outlines', () => {
  const square = (x: number, y: number, side: number): Contour => [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
  ];
  it.each([
    ['side by side', square(0, 0, 1), square(3, 0, 1), 2],
    ['corner to corner', square(0, 0, 1), square(4, 5, 1), 5],
    ['touching', square(0, 0, 1), square(1, 0, 1), 0],
    ['one in the other', square(0, 0, 10), square(4, 4, 1), 0],
    [
      'crossing without a corner inside',
      square(0, 0, 3),
      [
        [-1, 1],
        [4, 1],
        [4, 2],
        [-1, 2],
      ] as Contour,
      0,
    ],
    [
      'a corner on a side',
      square(0, 0, 2),
      [
        [3, 1],
        [5, 0],
        [5, 2],
      ] as Contour,
      1,
    ],
  ])('%s', (_, a, b, gap) => {
    expect(outlineGap([a], [b])).toBeCloseTo(gap, 12);
    expect(outlineGap([b], [a])).toBeCloseTo(gap, 12);
    if (gap > 0) expect(apart([a], [b])).toBeCloseTo(gap, 12);
  });
});

describe('a part in its place', () => {
  it.each([0, 90, 180, 270] as const)(
    'stands with its box where the plate says, turned by %d',
    (turn: Turn) => {
      const mesh = bracket();
      const placement = placementOf(shadowOf(kernel, mesh), { turn, x: 12.5, y: 40.25 });
      const { positions } = mergedMesh([{ mesh, placement }]);
      const points = Array.from({ length: positions.length / 3 }, (_, v): [number, number] => [
        positions[3 * v]!,
        positions[3 * v + 1]!,
      ]);
      const { left, front } = extent([points]);
      expect(left).toBeCloseTo(12.5, 4);
      expect(front).toBeCloseTo(40.25, 4);
      // Counter-clockwise seen from above: x goes where the angle says.
      const [o, e] = [place(placement, [0, 0, 0]), place(placement, [1, 0, 0])];
      const angle = (Math.atan2(e[1] - o[1], e[0] - o[0]) * 180) / Math.PI;
      expect((angle + 360) % 360).toBeCloseTo(turn, 9);
      expect(e[2]).toBe(o[2]);
    },
  );

  it('keeps volume and triangles in the merged file', () => {
    const parts = [bracket(), cube(3.84), prism(64, 9, 4)];
    const turns = [90, 270, 180] as const;
    const merged = mergedMesh(
      parts.map((mesh, k) => ({
        mesh,
        placement: placementOf(shadowOf(kernel, mesh), { turn: turns[k]!, x: 100.001 * k, y: 77.7 }),
      })),
    );
    const label = { part: 'plate', unit: 'mm', hash: 'ab' } as const;
    const volume = (mesh: Mesh) => volumeOf(readStl(stl(mesh, label)));
    const sum = parts.reduce((total, mesh) => total + volume(mesh), 0);
    expect(volume(merged)).toBeCloseTo(sum, 1);
    expect(merged.triangles.length).toBe(parts.reduce((total, { triangles }) => total + triangles.length, 0));
  });
});

it('draws every part of the plate from above, a millimetre for each, and names the kinds', () => {
  const bed = { x: 120, y: 90, z: 100 };
  const items = [cube(30), prism(32, 18, 40), cube(2)].map((mesh, k) => ({
    ...{ outline: shadowOf(kernel, mesh), height: [30, 40, 2][k]!, count: k + 1, turns: [0] as const },
    name: ['box', 'mast <b> & "c"', 'speck'][k]!,
  }));
  const plate = plateOf(kernel, items, bed, { spacing: 4 });
  if (!plate.ok) throw new RangeError('this test requires parts that fit');
  const text = topView({ title: 'Plate <1>', bed, spacing: 4, plate, parts: items });
  const svg = new DOMParser().parseFromString(text, 'text/xml');
  const words = [...svg.getElementsByTagName('text')].map((each) => each.textContent);
  expect(words).toEqual(
    expect.arrayContaining(['front of the bed, 120 x 90 mm', 'mast <b> & "c", 2 off, 40.0 mm high']),
  );
  // A number for each copy and one before each kind.
  expect(words.filter((each) => /^[123]$/.test(each!)).sort()).toEqual([
    '1',
    '1',
    '2',
    '2',
    '2',
    '3',
    '3',
    '3',
    '3',
  ]);
  expect(svg.documentElement!.getAttribute('width')).toBe(`${120 + 16}mm`);
  const fill = [...svg.getElementsByTagName('path')].find(
    (each) => each.getAttribute('class') === 'part-fill',
  )!;
  const pieces = fill
    .getAttribute('d')!
    .split('Z')
    .filter((piece) => piece !== '');
  const drawn = pieces.map((piece) =>
    areaOf([
      piece
        .slice(1)
        .split('L')
        .map((point) => {
          const [x, y] = point.split(' ');
          return [Number(x), -Number(y)] as const;
        }),
    ]),
  );
  const polygon = 16 * 81 * Math.sin((2 * Math.PI) / 32);
  expect(drawn.map((area) => area.toFixed(1))).toEqual(
    [900, polygon, polygon, 4, 4, 4].map((area) => area.toFixed(1)),
  );
  expect(topView({ title: 'Plate <1>', bed, spacing: 4, plate, parts: items })).toBe(text);
});
