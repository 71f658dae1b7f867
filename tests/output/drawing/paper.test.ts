import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import {
  chains,
  clipContour,
  clipSegment,
  decimal,
  escapeText,
  filled,
  lineType,
  region,
  type Segment,
  scaleFor,
  scaleName,
  strokes,
  svgDocument,
} from '../../../src/output/drawing/index.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { area } from '../../../src/solid/profile.ts';
import { difference } from '../../../src/solid/shape.ts';
import type { Contour, Vec2 } from '../../../src/solid/vector.ts';
import { meshOfShape } from '../solids.ts';

describe('region', () => {
  const total = (contours: readonly Contour[]): number => contours.reduce((sum, c) => sum + area(c), 0);

  it('of a cube is a square in front and a hexagon in isometric', () => {
    const cube = meshOfShape(block([0, 0, 0], [10, 10, 10]));
    expect(total(region(cube, 'front'))).toBeCloseTo(100, 4);
    // Three faces, each seen at cos(54.74 deg) = 1 / sqrt(3) of its area.
    expect(total(region(cube, 'isometric'))).toBeCloseTo(300 / Math.sqrt(3), 3);
    expect(region(cube, 'isometric').length).toBe(1);
  });

  it('has a hole where one looks through', () => {
    const plate = meshOfShape(
      difference(
        block([-10, 0, -10], [10, 2, 10]),
        cylinder({ axis: 'y', diameter: 8, from: [0, -1, 0], length: 4, sense: 'bore' }),
      ),
    );
    const contours = region(plate, 'front');
    expect(contours.length).toBe(2);
    // The bore's polygon lies between its circle and the square around it.
    expect(total(contours)).toBeLessThan(400 - Math.PI * 16);
    expect(total(contours)).toBeGreaterThan(400 - Math.PI * 16 * 1.01);
  });
});

describe('clipping', () => {
  const box = { min: [0, 0], max: [10, 5] } as const;

  it('keeps the part of a segment inside', () => {
    expect(
      clipSegment(
        [
          [-5, 1],
          [5, 1],
        ],
        box,
      ),
    ).toEqual([
      [0, 1],
      [5, 1],
    ]);
    expect(
      clipSegment(
        [
          [-1, 6],
          [11, 6],
        ],
        box,
      ),
    ).toBeNull();
    const cut = clipSegment(
      [
        [-1, -1],
        [6, 6],
      ],
      box,
    )!;
    expect(cut.flat().map((c) => c.toFixed(9))).toEqual([0, 0, 5, 5].map((c) => c.toFixed(9)));
  });

  it('cuts a contour down to the box, winding kept', () => {
    const triangle: Vec2[] = [
      [-10, 0],
      [20, 0],
      [5, 15],
    ];
    // What the triangle with sides y = x + 10 and y = 20 - x leaves of the box is the whole box.
    expect(area(clipContour(triangle, box))).toBeCloseTo(50, 9);
    expect(area(clipContour([...triangle].reverse(), box))).toBeCloseTo(-50, 9);
    expect(
      clipContour(
        [
          [20, 0],
          [30, 0],
          [30, 5],
        ],
        box,
      ),
    ).toEqual([]);
  });
});

describe('chains', () => {
  it('strings a scrambled polygon into one closed line', () => {
    const corner = (k: number): Vec2 => [Math.cos((k * Math.PI) / 6), Math.sin((k * Math.PI) / 6)];
    const order = [3, 7, 0, 11, 5, 1, 9, 2, 10, 4, 8, 6];
    const segments: Segment[] = order.map((k) =>
      k % 2 ? [corner(k), corner(k + 1)] : [corner(k + 1), corner(k)],
    );
    const [line, ...more] = chains(segments);
    expect(more).toEqual([]);
    expect(line!.length).toBe(13);
    expect(Math.hypot(line![0]![0] - line![12]![0], line![0]![1] - line![12]![1])).toBeLessThan(1e-9);
  });

  it('goes straight on where lines cross, and loses none', () => {
    const segments: Segment[] = [
      [
        [0, 0],
        [1, 0],
      ],
      [
        [1, 0],
        [1, 1],
      ],
      [
        [1, 0],
        [2, 0],
      ],
      [
        [1, -1],
        [1, 0],
      ],
    ];
    expect(chains(segments).map((line) => line.length)).toEqual([3, 3]);
  });
});

describe('scaleFor', () => {
  // ISO 5455:1979, clause 4, recommended scales.
  it.each([
    [[8, 12], [100, 130], 10, '10:1'],
    [[13, 14], [100, 90], 10, '5:1'],
    [[40, 20], [90, 90], 10, '2:1'],
    [[90, 20], [90, 90], 10, '1:1'],
    [[91, 20], [90, 90], 10, '1:2'],
    [[400, 20], [90, 90], 10, '1:5'],
    [[1, 1], [90, 90], 1, '1:1'],
  ] as const)('%j in %j at most %d is %s', (size, room, most, name) => {
    expect(scaleName(scaleFor(size, room, most))).toBe(name);
  });

  it('refuses what is too large for any', () => {
    expect(() => scaleFor([1e5, 1], [90, 90], 1)).toThrow(/fits at 1:100/);
  });
});

describe('lineType', () => {
  it('keeps wide to narrow at 2 : 1 and dashes in proportion to the width', () => {
    expect(lineType.visibleEdge).toEqual({ width: 0.5, dashes: [] });
    // From memory of ISO 128-20:1996, table 3: dash 12 d, gap 3 d, long dash 24 d, dot 0.5 d at most.
    expect(lineType.hiddenEdge).toEqual({ width: 0.25, dashes: [3, 0.75] });
    expect(lineType.centreLine.dashes).toEqual([6, 0.75, 0.125, 0.75]);
  });
});

describe('svg', () => {
  it('writes numbers to three decimals and no negative zero', () => {
    expect([1.23456, -0.0001, 10, 0.1 + 0.2, -2.5].map(decimal)).toEqual(['1.235', '0', '10', '0.3', '-2.5']);
  });

  it('keeps trailing zeros of whole numbers', () => {
    expect([100, 1000, 0].map(decimal)).toEqual(['100', '1000', '0']);
  });

  it('escapes what would be markup and drops what XML forbids', () => {
    expect(escapeText(`<a href="x" b='y'>&\u0000`)).toBe(
      '&lt;a href=&quot;x&quot; b=&#39;y&#39;&gt;&amp;\ufffd',
    );
  });

  it('is true to scale in the hands of an independent renderer', () => {
    // resvg draws 25.4 mm as 254 pixels at 254 dpi: a filled square of 10 mm must cover 100 x 100 pixels.
    const square: Vec2[] = [
      [5, 5],
      [15, 5],
      [15, 15],
      [5, 15],
    ];
    const svg = svgDocument({ min: [0, 0], max: [30, 20] }, 'a <square>', [filled([square], 'arrow')]);
    const { width, height, pixels } = new Resvg(svg, { dpi: 254 }).render();
    expect([width, height]).toEqual([300, 200]);
    const dark: [number, number][] = [];
    for (let k = 3; k < pixels.length; k += 4)
      if (pixels[k]! > 127) dark.push([((k - 3) / 4) % width, Math.floor((k - 3) / 4 / width)]);
    const [xs, ys] = [dark.map(([x]) => x), dark.map(([, y]) => y)];
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([50, 149]);
    // y up on paper: 5 mm from the bottom of 20 mm.
    expect([Math.min(...ys), Math.max(...ys)]).toEqual([50, 149]);
    expect(dark.length).toBe(10000);
  });

  it('joins the ends of a closed line', () => {
    const ring: Vec2[] = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 0],
    ];
    expect(strokes([ring], lineType.visibleEdge, 'part')).toMatch(/d="M0 0L1 0L1 -1Z"/);
  });
});
