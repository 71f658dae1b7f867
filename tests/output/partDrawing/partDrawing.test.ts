import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineWidth } from '../../../src/output/drawing/index.ts';
import {
  isometricDrawing,
  type PartDrawingInput,
  partDrawing,
  type SizeAsked,
} from '../../../src/output/partDrawing/index.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { difference, union } from '../../../src/solid/shape.ts';
import { meshOfShape } from '../solids.ts';
import { type Line, type Point, type ReadSheet, readSheet } from './readSheet.ts';
import { faultsOf } from './sheetFaults.ts';

const fields: PartDrawingInput['fields'] = {
  ...{ title: 'Bearing block', part: 'block', quantity: 2, material: 'PETG', printer: 'printer 1' },
  ...{ calibrated: '2026-11-20', hash: 'a1b2c3d4e5f6a7b8', author: null, licence: null, sheet: [1, 1] },
};
const asked = (
  one: Pick<SizeAsked, 'id' | 'kind' | 'at' | 'axis' | 'across' | 'length' | 'drawn'>,
): SizeAsked => ({
  ...{ name: one.id, nominal: one.drawn, least: one.drawn - 0.1, most: one.drawn + 0.1, diameter: false },
  ...one,
});
const boreSize = asked({
  ...{ id: 'bore', kind: 'bore', at: [10, 5, 4], axis: [0, 1, 0] },
  ...{ across: [1, 0, 0], length: 10, drawn: 4 },
});

/** A block of `x` x 10 x 8 mm with a bore of 4 mm from front to back. */
const bored = (x = 20, changed: Partial<PartDrawingInput> = {}): PartDrawingInput => ({
  mesh: meshOfShape(
    difference(
      block([0, 0, 0], [x, 10, 8]),
      cylinder({ axis: 'y', diameter: 4, from: [10, -1, 4], length: 12, sense: 'bore' }),
    ),
  ),
  ...{ sizes: [boreSize], rounds: [], projection: 'first', fields },
  ...changed,
});

const extent = (lines: readonly Line[], k: 0 | 1): number =>
  Math.max(...lines.flat().map((p) => p[k])) - Math.min(...lines.flat().map((p) => p[k]));
const size = (sheet: ReadSheet, id: string): string[] =>
  sheet.texts.filter((one) => one.size === id).map(({ words }) => words);
const words = (sheet: ReadSheet): string[] => sheet.texts.map((one) => one.words);

describe('a block with a bore', () => {
  const sheet = readSheet(partDrawing(bored()));

  it('is drawn along the bore, and in one view beside it', () => {
    const large = sheet.views.filter(({ scale }) => scale > 1);
    expect(large[0]!.from).toMatch(/front|back/);
    expect(large.length).toBe(2);
    // The side hides the bore: two dashed lines through it.
    expect(large[1]!.hidden.length).toBe(2);
  });

  it('carries the bore as a diameter, and the three lengths over all in brackets', () => {
    expect(size(sheet, 'bore')).toEqual(['⌀4.00 ±0.10']);
    expect(['length', 'breadth', 'height'].map((name) => size(sheet, `overall.${name}`))).toEqual([
      ['(20.0)'],
      ['(10.0)'],
      ['(8.0)'],
    ]);
  });

  it('measures what it says: lines of a size are as long as scale times size', () => {
    const { scale } = sheet.views[0]!;
    for (const [id, long] of [
      ['overall.length', 20],
      ['overall.breadth', 10],
      ['overall.height', 8],
    ] as const) {
      const lines = sheet.lines.filter((one) => one.size === id && one.mark === 'dimension');
      const lengths = lines.map(({ line: [p, q] }) => Math.hypot(q[0] - p[0], q[1] - p[1]));
      expect(
        lengths.some((length) => Math.abs(length - long * scale) < 0.002),
        id,
      ).toBe(true);
    }
  });

  it('stands beside that in full size, a millimetre for a millimetre', () => {
    const full = sheet.views.filter(({ scale }) => scale === 1);
    expect(full.map(({ from }) => from)).toEqual(sheet.views.slice(0, 2).map(({ from }) => from));
    const onPaper = full.map(({ visible, at }) =>
      visible.map((line) => line.map(([x, y]): Point => [x + at[0], y + at[1]])),
    );
    expect(extent(onPaper[0] as unknown as Line[], 0)).toBeCloseTo(20, 2);
    expect(extent(onPaper[0] as unknown as Line[], 1)).toBeCloseTo(8, 2);
    expect(words(sheet)).toContain('full size 1:1');
  });

  it('has a rule of 50 mm', () => {
    const marks = sheet.lines.filter(
      ({ mark, line: [p, q] }) =>
        mark === 'dimension' && p[1] === q[1] && Math.abs(q[0] - p[0]) > 49.9 && Math.abs(q[0] - p[0]) < 50.1,
    );
    expect(marks.length).toBe(1);
    expect(words(sheet)).toContain('must measure 50 mm');
  });

  it('crosses the bore with centre lines that reach past it', () => {
    const view = sheet.views[0]!;
    const middle: Point = [
      view.at[0] + (view.from === 'front' ? 10 : -10) * view.scale,
      view.at[1] + 4 * view.scale,
    ];
    const through = sheet.lines.filter(
      ({ mark, line: [p, q] }) =>
        mark === 'centre' &&
        ((Math.abs(p[0] - middle[0]) < 0.01 && Math.abs(q[0] - middle[0]) < 0.01) ||
          (Math.abs(p[1] - middle[1]) < 0.01 && Math.abs(q[1] - middle[1]) < 0.01)),
    );
    expect(through.length).toBeGreaterThanOrEqual(2);
    for (const {
      line: [p, q],
    } of through)
      expect(Math.hypot(q[0] - p[0], q[1] - p[1])).toBeGreaterThan(4 * view.scale + 4);
  });

  it('has no centre line where hidden edges are not their own mirror image', () => {
    const { views, lines } = readSheet(partDrawing(bored(150)));
    // Seen from above or below the bore is hidden, 10 mm from one end of 150.
    const plan = views.find(({ from }) => from === 'top' || from === 'bottom')!;
    const upright = lines.filter(
      ({ mark, line: [p, q] }) =>
        mark === 'centre' && Math.abs(p[0] - q[0]) < 1e-6 && Math.abs((p[1] + q[1]) / 2 - plan.at[1]) < 12,
    );
    expect(upright.map(({ line: [p] }) => Math.abs(p[0] - plan.at[0]))).toEqual([expect.closeTo(10, 2)]);
  });

  it('uses line types of ISO 128-2: seen wide and through, hidden and centre lines narrow and broken', () => {
    const drawn = (mark: string) => sheet.lines.filter((one) => one.mark === mark);
    const edges = drawn('part').filter(({ width }) => width === lineWidth.wide);
    expect(edges.length).toBeGreaterThan(8);
    expect(edges.every(({ dashes }) => dashes === '')).toBe(true);
    for (const mark of ['hidden', 'centre']) {
      expect(drawn(mark).length, mark).toBeGreaterThan(0);
      expect(
        drawn(mark).every(({ width, dashes }) => width === lineWidth.narrow && dashes !== ''),
        mark,
      ).toBe(true);
    }
    expect(lineWidth.wide / lineWidth.narrow).toBe(2);
  });
});

describe('paper and scale (ISO 5455, ISO 216)', () => {
  // Enlarged to 90 mm at most; 1:1 on the smaller paper, then on the larger; the next of the series where neither takes it.
  it.each([
    [13, [210, 297], '5:1'],
    [30, [210, 297], '2:1'],
    [60, [210, 297], '1:1'],
    [150, [210, 297], '1:1'],
    [250, [420, 297], '1:1'],
    [500, [420, 297], '1:2'],
  ] as const)('a block %i mm long', (x, paper, scale) => {
    const sheet = readSheet(partDrawing(bored(x)));
    expect(sheet.paper).toEqual(paper);
    expect(words(sheet)).toContain(scale);
    expect(extent(sheet.views[0]!.visible, 0)).toBeCloseTo(x, 1);
  });

  it('says when nothing can be laid on it', () => {
    expect(words(readSheet(partDrawing(bored(500)))).join()).toContain('no print can be laid on it');
    expect(words(readSheet(partDrawing(bored(60)))).join()).toContain(
      'lay the print on the views to compare',
    );
  });

  it('refuses what goes on no paper', () => {
    expect(() => partDrawing(bored(60_000))).toThrow(/A3 at 1:100/);
  });
});

describe('projection (ISO 5456-2)', () => {
  // A step at the right end tells sides apart.
  const stepped = (projection: PartDrawingInput['projection']): ReadSheet => {
    const mesh = meshOfShape(
      union(block([0, 0, 0], [20, 12, 6]), block([14, 0, 6], [20, 5, 10]), block([14, 5, 6], [16, 8, 8])),
    );
    const length = asked({
      id: 'step',
      kind: 'step',
      at: [20, 6, 3],
      axis: [0, 1, 0],
      across: [-1, 0, 0],
      length: 12,
      drawn: 20,
    });
    return readSheet(partDrawing(bored(20, { mesh, sizes: [length], projection })));
  };

  it.each(['first', 'third'] as const)(
    'sets views out in %s angle, level and plumb with the main one',
    (projection) => {
      const sheet = stepped(projection);
      const [main, ...others] = sheet.views.filter(({ scale }) => scale > 1) as [ReadSheet['views'][number]];
      expect(others.length).toBeGreaterThan(0);
      // Where a view stands when the part is rolled over its edge: in first angle it falls away from where it is looked at.
      const side: Readonly<Record<string, Readonly<Record<string, Point>>>> = {
        front: { left: [-1, 0], right: [1, 0], top: [0, 1], bottom: [0, -1] },
        back: { left: [1, 0], right: [-1, 0], top: [0, 1], bottom: [0, -1] },
        top: { left: [-1, 0], right: [1, 0], back: [0, 1], front: [0, -1] },
        bottom: { left: [-1, 0], right: [1, 0], front: [0, 1], back: [0, -1] },
        left: { back: [-1, 0], front: [1, 0], top: [0, 1], bottom: [0, -1] },
        right: { front: [-1, 0], back: [1, 0], top: [0, 1], bottom: [0, -1] },
      };
      for (const other of others as ReadSheet['views']) {
        const [x, y] = side[main.from]![other.from]!;
        const sense = projection === 'third' ? 1 : -1;
        if (x !== 0) {
          expect(Math.sign(other.at[0] - main.at[0])).toBe(sense * x);
          expect(other.at[1]).toBeCloseTo(main.at[1], 2);
        } else {
          expect(Math.sign(other.at[1] - main.at[1])).toBe(sense * y);
          expect(other.at[0]).toBeCloseTo(main.at[0], 2);
        }
      }
      expect(words(sheet)).toContain(`${projection} angle`);
    },
  );
});

describe('any block with bores and a post', () => {
  it('has nothing on anything else', () => {
    const mm = (from: number, to: number) => fc.integer({ min: from * 10, max: to * 10 }).map((n) => n / 10);
    let drawn = 0;
    fc.assert(
      fc.property(mm(24, 140), mm(12, 60), mm(6, 30), mm(2, 5), mm(2, 5), (x, y, z, one, two) => {
        const bores = [one, two].map((diameter, k) => ({
          diameter,
          at: [k === 0 ? x / 4 : (3 * x) / 4, y / 2, z / 2] as const,
        }));
        const mesh = meshOfShape(
          difference(
            union(
              block([0, 0, 0], [x, y, z]),
              block([x / 2 - 2, y / 2 - 3, z], [x / 2 + 2, y / 2 + 3, z + 4]),
            ),
            ...bores.map(({ diameter, at }) =>
              cylinder({ axis: 'z', diameter, from: [at[0], at[1], -1], length: z + 2, sense: 'bore' }),
            ),
          ),
        );
        const sizes = [
          ...bores.map(({ diameter, at }, k) =>
            asked({
              id: `bore ${k}`,
              kind: 'bore',
              at,
              axis: [0, 0, 1],
              across: [1, 0, 0],
              length: z,
              drawn: diameter,
            }),
          ),
          asked({
            id: 'width',
            kind: 'post',
            at: [x / 2, y / 2, z + 2],
            axis: [0, 0, 1],
            across: [1, 0, 0],
            length: 4,
            drawn: 4,
          }),
          asked({
            id: 'breadth',
            kind: 'post',
            at: [x / 2, y / 2, z + 2],
            axis: [0, 0, 1],
            across: [0, 1, 0],
            length: 4,
            drawn: 6,
          }),
        ];
        const sheet = readSheet(partDrawing(bored(20, { mesh, sizes })));
        drawn += sheet.texts.length;
        expect(faultsOf(sheet)).toEqual([]);
      }),
      { numRuns: 8, seed: 129 },
    );
    expect(drawn).toBeGreaterThan(150);
  });
});

describe('untrusted texts', () => {
  it('stay text, and within their cells', () => {
    const nasty = '<script>alert("1")</script>&\u0000]]>';
    const svg = partDrawing(
      bored(20, {
        fields: {
          ...fields,
          title: nasty.repeat(5),
          part: nasty,
          material: nasty,
          printer: nasty,
          author: nasty,
          licence: 'W'.repeat(200),
        },
        sizes: [{ ...boreSize, id: '"><x', name: nasty }],
      }),
    );
    expect(svg).not.toContain('<script');
    const sheet = readSheet(svg);
    expect(faultsOf(sheet)).toEqual([]);
    expect(words(sheet).some((one) => one.endsWith('…'))).toBe(true);
  });

  it('has no date but that of the calibration, and the number of its job', () => {
    const sheet = words(readSheet(partDrawing(bored())));
    expect(sheet.filter((one) => /\d{4}-\d\d/.test(one))).toEqual(['printer 1, calibrated 2026-11-20']);
    expect(sheet).toContain('a1b2c3d4e5f6');
  });
});

describe('isometricDrawing', () => {
  it('shows nine edges of a cube, as large as asked', () => {
    const svg = isometricDrawing(
      { name: 'cube <1>', mesh: meshOfShape(block([0, 0, 0], [10, 10, 10])) },
      [62, 52],
    );
    const { lines, paper } = readSheet(svg);
    expect(lines.length).toBe(9);
    // An isometric cube is a regular hexagon, higher than wide by 2 / sqrt(3).
    expect(paper[1]).toBeCloseTo(52, 2);
    expect((paper[1] - 2) / (paper[0] - 2)).toBeCloseTo(2 / Math.sqrt(3), 2);
    expect(svg).toContain('cube &lt;1&gt;, isometric');
  });
});
