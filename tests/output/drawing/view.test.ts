import { describe, expect, it } from 'vitest';
import { project, type ViewName, viewFrom, viewOf } from '../../../src/output/drawing/index.ts';
import { cross, dot, lengthOf, subtract, type Vec3 } from '../../../src/solid/vector.ts';

const names: readonly ViewName[] = [
  'front',
  'back',
  'left',
  'right',
  'top',
  'bottom',
  'isometric',
  'isometricBelow',
];

describe('viewOf', () => {
  it.each(names)('%s is right-handed and of unit length', (name) => {
    const { right, up, toward } = viewOf(name);
    for (const axis of [right, up, toward]) expect(lengthOf(axis)).toBeCloseTo(1, 12);
    expect(lengthOf(subtract(cross(right, up), toward))).toBeLessThan(1e-12);
  });

  it('shows opposite sides from opposite directions', () => {
    for (const [one, other] of [
      ['front', 'back'],
      ['left', 'right'],
      ['top', 'bottom'],
    ] as const) {
      expect(dot(viewOf(one).toward, viewOf(other).toward)).toBeCloseTo(-1, 12);
    }
  });

  it('shows x to the right and z up in front, y to the right from the right, y up from above', () => {
    expect(project(viewOf('front'), [1, 2, 3])).toEqual([1, 3, -2]);
    expect(project(viewOf('right'), [1, 2, 3])).toEqual([2, 3, 1]);
    expect(project(viewOf('top'), [1, 2, 3])).toEqual([1, 2, 3]);
  });

  it('shortens all three axes alike in isometric views', () => {
    // ISO 5456-3:1996, 5.1: edges along the axes show at 0.816 of their length, at 30 degrees to the horizontal.
    for (const axis of [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as Vec3[]) {
      const [x, y] = project(viewOf('isometric'), axis);
      expect(Math.hypot(x, y)).toBeCloseTo(0.816, 3);
    }
    const [x, y] = project(viewOf('isometric'), [0, 1, 0]);
    expect(Math.atan2(y, x)).toBeCloseTo(Math.PI / 6, 12);
  });
});

describe('viewFrom', () => {
  it('refuses to look along its upright', () => {
    expect(() => viewFrom([0, 0, 2])).toThrow(/not parallel/);
  });
});
