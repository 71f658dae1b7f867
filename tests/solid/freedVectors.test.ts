import Module from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';

// The same calls through the library as it comes.
let ours: ManifoldToplevel;
let theirs: ManifoldToplevel;
beforeAll(async () => {
  ours = await loadKernel();
  theirs = await Module();
  theirs.setup();
});

const square: [number, number][] = [
  [0, 0],
  [4, 0],
  [4, 3],
  [0, 3],
];
const hole: [number, number][] = [
  [1, 1],
  [1, 2],
  [2, 2],
  [2, 1],
];

describe('freeVectors changes no result of', () => {
  it.each(['EvenOdd', 'NonZero', 'Positive', 'Negative'] as const)('a section filled by %s', (rule) => {
    const both = [ours, theirs].map(({ CrossSection }) => new CrossSection([square, hole], rule));
    expect(both[0]!.area()).toBe(both[1]!.area());
    expect(both[0]!.toPolygons()).toEqual(both[1]!.toPolygons());
    for (const one of both) one.delete();
  });

  it('a section of one contour', () => {
    const one = new ours.CrossSection(square);
    expect(one.area()).toBeCloseTo(12, 12);
    expect(one).toBeInstanceOf(ours.CrossSection);
    one.delete();
  });

  it('an extrusion, plain, tapered, twisted and centred', () => {
    const box = ({ CrossSection }: ManifoldToplevel) => {
      const section = new CrossSection([square, hole]);
      const solids = [
        section.extrude(2),
        section.extrude(2, 3, 90, [0.5, 0.25]),
        section.extrude(2, 0, 0, 0.5),
        section.extrude(2, 0, 0, [1, 1], true),
      ];
      const found = solids.map((solid) => [solid.volume(), solid.boundingBox(), solid.genus()]);
      for (const each of [...solids, section]) each.delete();
      return found;
    };
    expect(box(ours)).toEqual(box(theirs));
    expect(box(ours)[0]![0]).toBeCloseTo(22, 9);
  });

  it('nothing at all', () => {
    const none = new ours.CrossSection([]);
    expect(none.isEmpty()).toBe(true);
    expect(none.toPolygons()).toEqual([]);
    none.delete();
  });
});
