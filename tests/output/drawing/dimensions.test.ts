import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type DimensionGeometry,
  dimensionGeometry,
  dimensioning,
  dimensionSvg,
  placeDimensions,
} from '../../../src/output/drawing/index.ts';
import type { Vec2 } from '../../../src/solid/vector.ts';

const distance = (p: Readonly<Vec2>, q: Readonly<Vec2>): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

function pointToLine(p: Readonly<Vec2>, [a, b]: DimensionGeometry['line']): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const t = Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)));
  return distance(p, [a[0] + t * dx, a[1] + t * dy]);
}

describe('dimensionGeometry', () => {
  it('draws the line as long as what it measures, parallel to it', () => {
    const { ends, inside } = dimensionGeometry({
      anchors: [
        [0, 0],
        [30, 40],
      ],
      offset: 12,
      number: 1,
    });
    expect(inside).toBe(true);
    expect(distance(ends[0], ends[1])).toBeCloseTo(50, 9);
    expect(ends[0][0]).toBeCloseTo(-9.6, 9);
    expect(ends[0][1]).toBeCloseTo(7.2, 9);
  });

  it('starts extension lines off the outline and runs them past the dimension line', () => {
    const { extensions } = dimensionGeometry({
      anchors: [
        [0, 0],
        [30, 0],
      ],
      offset: -10,
    });
    expect(extensions[0]).toEqual([
      [0, -dimensioning.gap],
      [0, -10 - dimensioning.overshoot],
    ]);
  });

  it('puts the arrows outside where there is no room between', () => {
    const { inside, balloon, line } = dimensionGeometry({
      anchors: [
        [0, 0],
        [0, 3],
      ],
      offset: 10,
      number: 4,
    });
    expect(inside).toBe(false);
    expect(distance(line[0], line[1])).toBeCloseTo(3 + 2 * dimensioning.tail, 9);
    expect(balloon![1]).toBeGreaterThan(3 + dimensioning.tail);
    const flipped = dimensionGeometry({
      anchors: [
        [0, 0],
        [0, 3],
      ],
      offset: 10,
      number: 4,
      flipped: true,
    });
    expect(flipped.balloon![1]).toBeLessThan(-dimensioning.tail);
  });

  it('refuses anchors in one place', () => {
    expect(() =>
      dimensionGeometry({
        anchors: [
          [1, 1],
          [1, 1],
        ],
        offset: 5,
      }),
    ).toThrow(/apart/);
  });
});

describe('dimensionSvg', () => {
  it('puts text above the line and the number in a circle', () => {
    const svg = dimensionSvg({
      anchors: [
        [0, 0],
        [40, 0],
      ],
      offset: 10,
      words: '4.02 <mm>',
    }).join('');
    expect(svg).toContain('4.02 &lt;mm&gt;</text>');
    const { words, ends } = dimensionGeometry({
      anchors: [
        [0, 0],
        [40, 0],
      ],
      offset: 10,
      words: 'x',
    });
    expect(words![1]).toBeGreaterThan(ends[0][1] + dimensioning.figure / 2);
    expect(
      dimensionSvg({
        anchors: [
          [0, 0],
          [40, 0],
        ],
        offset: 10,
        number: 12,
      }).join(''),
    ).toMatch(/<circle class="balloon"[^>]*>.*>12<\/text>/);
  });
});

describe('placeDimensions', () => {
  const outline = { min: [0, 0], max: [60, 40] } as const;

  it('keeps out of the outline, on the nearer side, short ones inside long ones', () => {
    const [long, short, low] = placeDimensions(
      [
        {
          number: 1,
          anchors: [
            [0, 38],
            [60, 38],
          ],
        },
        {
          number: 2,
          anchors: [
            [20, 39],
            [40, 39],
          ],
        },
        {
          number: 3,
          anchors: [
            [10, 2],
            [50, 2],
          ],
        },
      ],
      outline,
    );
    expect(short!.geometry.ends[0][1]).toBeGreaterThan(40);
    expect(long!.geometry.ends[0][1]).toBeGreaterThan(short!.geometry.ends[0][1] + 5);
    expect(low!.geometry.ends[0][1]).toBeLessThan(0);
  });

  it('has no balloon on another or on a line, for any dozen dimensions that share an outline', () => {
    const x = fc.integer({ min: 0, max: 60 });
    const y = fc.integer({ min: 0, max: 40 });
    const horizontal = fc.tuple(x, x, y).filter(([a, b]) => Math.abs(a - b) > 1);
    const vertical = fc.tuple(y, y, x).filter(([a, b]) => Math.abs(a - b) > 1);
    let dimensionsPlaced = 0;
    fc.assert(
      fc.property(
        fc.array(horizontal, { minLength: 1, maxLength: 6 }),
        fc.array(vertical, { minLength: 1, maxLength: 6 }),
        (across, upright) => {
          const anchors = [
            ...across.map(
              ([a, b, at]) =>
                [
                  [a, at],
                  [b, at],
                ] as const,
            ),
            ...upright.map(
              ([a, b, at]) =>
                [
                  [at, a],
                  [at, b],
                ] as const,
            ),
          ];
          const placed = placeDimensions(
            anchors.map((pair, k) => ({ number: k + 1, anchors: pair })),
            outline,
          );
          dimensionsPlaced += placed.length;
          placed.forEach(({ geometry: own }, k) => {
            for (const { geometry: other } of placed.slice(k + 1)) {
              expect(distance(own.balloon!, other.balloon!)).toBeGreaterThan(2 * dimensioning.balloonRadius);
              expect(pointToLine(own.balloon!, other.line)).toBeGreaterThan(dimensioning.balloonRadius);
              expect(pointToLine(other.balloon!, own.line)).toBeGreaterThan(dimensioning.balloonRadius);
            }
          });
        },
      ),
      { numRuns: 150, seed: 129 },
    );
    expect(dimensionsPlaced).toBeGreaterThan(500);
  });
});
