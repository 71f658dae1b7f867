import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { layersBelow } from '../../src/printer/layers.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { matrix, up } from '../../src/solid/placement.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { area, circle } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const cut = (shape: Shape, first = 0.2, layer = 0.2) => layersOf(scope, realise(scope, shape), first, layer);
const areaOf = ({ contours }: { contours: readonly [number, number][][] }) =>
  contours.reduce((sum, contour) => sum + area(contour), 0);

describe('layersOf', () => {
  test('stacks a first layer and the others without gaps', () => {
    const layers = cut(block([0, 0, 0], [5, 5, 3]), 0.3, 0.2);
    expect(layers[0]).toMatchObject({ bottom: 0, top: 0.3 });
    layers.slice(1).forEach((layer, k) => {
      expect(layer.bottom).toBe(layers[k]!.top);
      expect(layer.top - layer.bottom).toBeCloseTo(0.2, 12);
    });
  });

  test.each([
    [0.05, 0],
    [0.19, 1],
    [0.29, 1],
    [0.31, 2],
    [1, 5],
    [1.09, 5],
    [1.11, 6],
  ])('a height of %d mm comes to %d layers of 0.2 mm', (height, count) => {
    expect(cut(block([0, 0, 0], [4, 4, height]))).toHaveLength(count);
  });

  // Rounded to 32 bits every other such height is a hair more than it says.
  test('a height that ends at the middle of a layer is that layer short, for cut and formula alike', () => {
    const printer = { layer: 0.2, firstLayer: 0.2 } as PrinterProfile;
    for (let k = 1; k <= 60; k++)
      for (const off of [0, 1e-7, -1e-7]) {
        const height = 0.1 + 0.2 * k + off;
        expect(cut(block([0, 0, 0], [4, 4, height])), `${height} mm`).toHaveLength(k);
        expect(layersBelow(height, printer)).toBe(k);
      }
  });

  test('straight walls share one section, however they are triangulated', () => {
    const part = difference(
      union(
        block([0, 0, 0], [10, 10, 6]),
        cylinder({ axis: 'z', diameter: 4, from: [5, 5, 6], length: 4, sense: 'shaft' }),
      ),
      cylinder({ axis: 'z', diameter: 2, from: [5, 5, -1], length: 12, sense: 'bore' }),
    );
    const layers = cut(part);
    expect(layers).toHaveLength(50);
    expect(new Set(layers.map(({ section }) => section)).size).toBe(2);
    expect(layers[0]!.contours.map((contour) => contour.length)).toContain(4);
  });

  test('a prism on its side, laid by quarter turns, shares it too', () => {
    const profile = prism(
      'x',
      [
        [0, 0],
        [4, 0],
        [4, 1],
        [2, 2],
        [1, 5],
        [0, 5],
      ],
      0,
      3,
    );
    const laid = scope.keep(realise(scope, profile).transform(matrix(up.x)));
    const layers = layersOf(scope, laid, 0.2, 0.2);
    expect(new Set(layers.map(({ section }) => section)).size).toBe(1);
    expect(layers[0]!.contours).toHaveLength(1);
    expect(layers[0]!.contours[0]).toHaveLength(6);
  });

  test('contours run from their leftmost vertex, outer ones left about, holes right about', () => {
    const plate = difference(block([0, 0, 0], [9, 6, 1]), block([2, 2, -1], [4, 4, 2]));
    const [outer, hole] = cut(plate)[0]!.contours;
    expect(outer![0]).toEqual([expect.closeTo(0, 6), expect.closeTo(0, 6)]);
    expect(hole![0]).toEqual([expect.closeTo(2, 6), expect.closeTo(2, 6)]);
    expect(area(outer!)).toBeCloseTo(54, 4);
    expect(area(hole!)).toBeCloseTo(-4, 4);
  });

  test('a cone is cut at mid-height: areas go with the square of the distance to its tip', () => {
    const cone = cylinder({
      axis: 'z',
      diameter: 10,
      endDiameter: 5,
      from: [0, 0, 0],
      length: 4,
      sense: 'shaft',
    });
    const foot = area(circle(10, [0, 0], { sense: 'shaft' }));
    for (const layer of cut(cone)) {
      const middle = (layer.bottom + layer.top) / 2;
      expect(areaOf(layer as never)).toBeCloseTo(foot * (1 - middle / 8) ** 2, 3);
    }
  });

  test('layers add up to the volume', () => {
    const part = union(
      block([0, 0, 0], [8, 8, 2]),
      cylinder({ axis: 'x', diameter: 4, from: [0, 4, 2], length: 8, sense: 'shaft' }),
    );
    const sum = cut(part, 0.02, 0.02).reduce(
      (v, layer) => v + areaOf(layer as never) * (layer.top - layer.bottom),
      0,
    );
    expect(sum / realise(scope, part).volume()).toBeCloseTo(1, 3);
  });

  test('the section is what its contours say', () => {
    for (const layer of cut(cylinder({ axis: 'y', diameter: 4, from: [0, 0, 2], length: 5, sense: 'bore' })))
      expect(layer.section.area()).toBeCloseTo(areaOf(layer as never), 5);
  });

  // A cut a hair beside a vertex passes all the triangles that meet there: without care the corner goes with the crowd, and a
  // quarter of this section with it.
  test.each([1e-8, 5e-8, 1e-7, 3e-7, -1e-7, 1e-6, 3e-6])(
    'a hollow whose widest place lies %d mm off the middle of a layer keeps its corners',
    (off) => {
      const along = { axis: 'x', length: 6, sense: 'shaft' } as const;
      const hollow = cylinder({ ...along, diameter: 2, from: [-1, 0, 2.1 + off] });
      const layer = cut(difference(block([0, -2.5, 0], [4, 2.5, 4]), hollow))[10]!;
      expect(layer.contours.map((contour) => contour.length)).toEqual([4, 4]);
      expect(areaOf(layer as never)).toBeCloseTo(12, 4);
      expect(layer.section.area()).toBeCloseTo(12, 4);
    },
  );

  test('refuses layers without height', () => {
    for (const [first, layer] of [
      [0, 0.2],
      [0.2, 0],
      [0.2, Number.NaN],
    ] as const)
      expect(() => cut(block([0, 0, 0], [1, 1, 1]), first, layer)).toThrow(RangeError);
  });
});
