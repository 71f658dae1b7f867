import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import { circle, rectangle } from '../../src/solid/profile.ts';
import { narrowestGap, thinnestWall } from '../../src/solid/thickness.ts';
import type { Contour, Vec2 } from '../../src/solid/vector.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const bore = (diameter: number, centre: Vec2 = [0, 0]) => circle(diameter, centre, { sense: 'bore' });
const round = (diameter: number, centre: Vec2 = [0, 0]) => circle(diameter, centre, { sense: 'shaft' });
const turned = (contours: readonly Contour[], angle: number, by: Vec2 = [0, 0]): Contour[] =>
  contours.map((contour) =>
    contour.map(([x, y]) => [
      x * Math.cos(angle) - y * Math.sin(angle) + by[0],
      x * Math.sin(angle) + y * Math.cos(angle) + by[1],
    ]),
  );
const scaled = (contours: readonly Contour[], k: number): Contour[] =>
  contours.map((contour) => contour.map(([x, y]) => [k * x, k * y]));
const wall = (contours: readonly Contour[]) => thinnestWall(contours)!.width;
const gap = (contours: readonly Contour[]) => narrowestGap(contours)!.width;

/** An open C: ring of `outer` diameter with a bore, cut open to the right by a mouth. */
function cShape(outer: number, inner: number, centre: Vec2, mouth: number): Contour[] {
  const ring = scope.keep(new scope.kernel.CrossSection([round(outer), bore(inner, centre).reverse()]));
  const cut = scope.keep(new scope.kernel.CrossSection([rectangle([outer, mouth], [outer / 2, 0])]));
  return scope.keep(ring.subtract(cut)).toPolygons() as Contour[];
}

/** Facets stand this far inside a shaft's circle and outside a bore's, mm: twice the interface chord error. */
const FACETS = 0.01;

describe('thinnest wall against closed forms', () => {
  test.each([
    [10, 0.8],
    [0.3, 25],
    [0.42, 0.6],
    [3, 3],
  ])('rectangle %d x %d: its short side', (a, b) => {
    expect(wall([rectangle([a, b], [40, -7])])).toBeCloseTo(Math.min(a, b), 9);
  });

  test('turned rectangle: its short side still', () => {
    for (let k = 0; k < 40; k++)
      expect(wall(turned([rectangle([8, 0.7])], k * 0.157, [30, 5]))).toBeCloseTo(0.7, 9);
  });

  test('ring: half the difference of the diameters', () => {
    for (const [outer, inner] of [
      [5, 4.2],
      [3, 1.8],
      [20, 18.6],
    ] as const)
      expect(Math.abs(wall([round(outer), bore(inner).reverse()]) - (outer - inner) / 2)).toBeLessThan(
        FACETS,
      );
  });

  test('bore off the middle: the near side', () => {
    const contours = [round(6), bore(2, [1.2, 0.5]).reverse()];
    expect(Math.abs(wall(contours) - (3 - 1 - Math.hypot(1.2, 0.5)))).toBeLessThan(FACETS);
  });

  test('open C with its bore off the middle: the back', () => {
    expect(Math.abs(wall(cShape(5, 3, [-0.4, 0], 2)) - 0.6)).toBeLessThan(FACETS);
  });

  test('wall between two bores', () => {
    const contours = [rectangle([12, 6]), bore(3, [-2, 0]).reverse(), bore(3, [1.5, 0]).reverse()];
    expect(Math.abs(wall(contours) - 0.5)).toBeLessThan(FACETS);
  });

  test('wall between a corner of a cut-out and a side', () => {
    const diamond = turned([rectangle([2, 2])], Math.PI / 4)[0]!;
    expect(wall([rectangle([10, 4]), diamond.toReversed()])).toBeCloseTo(2 - Math.SQRT2, 2);
  });

  test('neck between two corners', () => {
    const neck = 0.5;
    const hourglass: Contour = [
      [-4, -3],
      [4, -3],
      [neck / 2, 0],
      [4, 3],
      [-4, 3],
      [-neck / 2, 0],
    ];
    expect(wall([hourglass])).toBeCloseTo(neck, 9);
  });

  test('round post: its diameter', () => {
    for (const d of [0.4, 1.6, 4]) expect(Math.abs(wall([round(d)]) - d)).toBeLessThan(FACETS);
  });

  test('lone triangle: its inscribed circle', () => {
    const side = 2;
    const triangle: Contour = [
      [0, 0],
      [side, 0],
      [side / 2, (side * Math.sqrt(3)) / 2],
    ];
    // Inradius of an equilateral triangle: side / (2 sqrt 3).
    expect(wall([triangle])).toBeCloseTo(side / Math.sqrt(3), 9);
  });

  test('rib on a block: the rib', () => {
    const ribbed: Contour = [
      [0, 0],
      [10, 0],
      [10, 5],
      [5.3, 5],
      [5.3, 5.9],
      [5, 5.9],
      [5, 5],
      [0, 5],
    ];
    expect(wall([ribbed])).toBeCloseTo(0.3, 9);
  });

  test('wedge: a tip is no thin wall until more than its last millimetre is', () => {
    const wedge = (degrees: number): Contour[] => {
      const half = (degrees * Math.PI) / 360;
      return [
        [
          [0, 0],
          [12, -12 * Math.tan(half)],
          [12, 12 * Math.tan(half)],
        ],
      ];
    };
    // A disc of diameter w stands r (1 / sin(angle / 2) - 1) behind the tip.
    for (const degrees of [5, 10, 20, 30]) {
      const expected = 2 / (1 / Math.sin((degrees * Math.PI) / 360) - 1);
      const found = wall(wedge(degrees));
      expect(found).toBeGreaterThanOrEqual(expected - 1e-9);
      expect(found).toBeLessThan(expected + 0.25 * Math.tan((degrees * Math.PI) / 180));
    }
    // Three corners of 60 degrees have no tips, and the disc inside a triangle 12 high is a third of it in radius.
    expect(wall(wedge(60))).toBeCloseTo(8, 9);
  });

  test('chamfered and rounded corners are no thin walls', () => {
    const chamfered: Contour = [
      [0.1, 0],
      [6, 0],
      [6, 4],
      [0, 4],
      [0, 0.1],
    ];
    expect(wall([chamfered])).toBeCloseTo(4, 9);
    const square = scope.keep(new scope.kernel.CrossSection([rectangle([5, 4])]));
    const softened = scope.keep(scope.keep(square.offset(-0.3)).offset(0.3, 'Round', 2, 64));
    expect(wall(softened.toPolygons() as Contour[])).toBeCloseTo(4, 6);
  });

  test('nothing and nothing below', () => {
    expect(thinnestWall([])).toBeNull();
    expect(thinnestWall([rectangle([5, 2])], 1.9)).toBeNull();
  });
});

// The disc that touches chord and arc at points 135 degrees apart around its middle: (h + r) / (R - r) = cos 45.
describe.each([
  [3, 0.5],
  [2, 0.3],
  [5, 1],
  [1.5, 0.1],
] as const)('a round of radius %d cut off at %d from its middle', (R, h) => {
  const expected = (2 * (Math.SQRT1_2 * R - h)) / (1 + Math.SQRT1_2);

  test.each([24, 32, 48, 96, 200, 512])('is as thin with %d facets as the true one, nearly', (n) => {
    const at = (k: number): Vec2 => [
      R * Math.cos((2 * Math.PI * k) / n),
      R * Math.sin((2 * Math.PI * k) / n),
    ];
    const piece = Array.from({ length: n }, (_, k) => [at(k), at(k + 1)] as const).flatMap(
      ([p, q]): Vec2[] => {
        const share = (h - p[1]) / (q[1] - p[1]);
        const crossing: Vec2[] = p[1] >= h === q[1] >= h ? [] : [[p[0] + share * (q[0] - p[0]), h]];
        return p[1] >= h ? [p, ...crossing] : crossing;
      },
    );
    // Places are tried every quarter of a millimetre, where the disc grows by a third of that.
    expect(Math.abs(wall([piece]) - expected)).toBeLessThan(0.085);
  });
});

describe('narrowest gap against closed forms', () => {
  test('convex outline has none', () => {
    expect(narrowestGap([rectangle([4, 3])])).toBeNull();
    expect(narrowestGap([round(4)])).toBeNull();
  });

  test('bore: its diameter', () => {
    for (const d of [0.5, 1.2, 3])
      expect(Math.abs(gap([rectangle([9, 9]), bore(d).reverse()]) - d)).toBeLessThan(1e-6);
  });

  test('slit: its width', () => {
    const slit: Contour = [
      [0, 0],
      [4, 0],
      [4, 3],
      [2.15, 3],
      [2.15, 1],
      [1.9, 1],
      [1.9, 3],
      [0, 3],
    ];
    expect(gap([slit])).toBeCloseTo(0.25, 9);
  });

  test('mouth of a C', () => {
    expect(gap(cShape(5, 3.4, [0, 0], 1.1))).toBeCloseTo(1.1, 2);
  });

  test('two pieces beside each other, and corner to corner', () => {
    expect(gap([rectangle([2, 2]), rectangle([2, 2], [2.3, 0.5])])).toBeCloseTo(0.3, 9);
    expect(gap([rectangle([2, 2]), rectangle([2, 2], [2.3, 2.4])])).toBeCloseTo(Math.hypot(0.3, 0.4), 2);
  });
});

describe('relations', () => {
  const part = (): Contour[] => cShape(5, 3, [-0.4, 0.2], 1.4);

  test('twice the size, twice the wall and gap', () => {
    expect(wall(scaled(part(), 2))).toBeCloseTo(2 * wall(part()), 2);
    expect(gap(scaled(part(), 2))).toBeCloseTo(2 * gap(part()), 2);
  });

  test('turned and moved, the same', () => {
    for (const angle of [0.3, 1.1, 2, 4.4]) {
      expect(wall(turned(part(), angle, [60, 40]))).toBeCloseTo(wall(part()), 2);
      expect(gap(turned(part(), angle, [60, 40]))).toBeCloseTo(gap(part()), 2);
    }
  });

  test('a wall is the gap of what was cut away', () => {
    const slot = rectangle([6, 0.6]);
    expect(gap([rectangle([10, 10]), slot.toReversed()])).toBeCloseTo(wall([slot]), 9);
  });

  test('opening by offsets leaves a thinner disc whole and takes a thicker one away', () => {
    // Another route: shrink by r and grow again keeps every place where a disc of radius r fits.
    const lost = (contours: Contour[], r: number): number => {
      const whole = scope.keep(new scope.kernel.CrossSection(contours));
      const opened = scope.keep(scope.keep(whole.offset(-r, 'Round', 2, 128)).offset(r, 'Round', 2, 128));
      return whole.area() - opened.area();
    };
    fc.assert(
      fc.property(
        fc.double({ min: 0.4, max: 1.5, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        (thick, inner, off) => {
          const contours = [round(inner + 2 * thick + 2 * off), bore(inner, [off, 0]).reverse()];
          const found = wall(contours);
          expect(Math.abs(found - thick)).toBeLessThan(0.02);
          expect(lost(contours, found / 2 - 0.01)).toBeLessThan(0.05);
          expect(lost(contours, found / 2 + 0.02)).toBeGreaterThan(0.1);
        },
      ),
      { numRuns: 60, seed: 20 },
    );
  });
});
