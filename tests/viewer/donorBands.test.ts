import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { families } from '../../parts/index.ts';
import { donorJob } from '../../src/job/donorJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { loadKernel, type ManifoldToplevel } from '../../src/solid/kernel.ts';
import { block } from '../../src/solid/primitives.ts';
import { type Shape, union } from '../../src/solid/shape.ts';
import type { Vec2, Vec3 } from '../../src/solid/vector.ts';
import { doingWords } from '../../viewer/donor/doingWords.ts';
import { pulledEnd, staysAt } from '../../viewer/donor/pulledEnd.ts';
import { lengthWords, sectionWords } from '../../viewer/donor/words.ts';
import { placeHandles } from '../../viewer/solid/bands/placeHandles.ts';
import { shiftedInto } from '../../viewer/solid/bands/shiftedLines.ts';
import { type HandsOn, handledIn, shownBands } from '../../viewer/solid/bands/shownBands.ts';
import type { ShownModel } from '../../viewer/spine/answers.ts';
import { DonorModels } from '../../viewer/spine/tasks/donorModels.ts';
import { lookAtModel, sheetOfModel } from '../../viewer/spine/tasks/donorSheet.ts';
import { bracket, stlOf } from '../cli/donorModel.ts';

const seed = 20_261;
/** Pixels; wide enough for all letters. */
const WIDE = 600;

/** Alike on both sides of x = 0: ends 8 mm long, arms 16 mm, a block of 12 mm in the middle. */
const clamp: Shape = union(
  block([-30, -8, 0], [-22, 8, 8]),
  block([22, -8, 0], [30, 8, 8]),
  block([-23, -5, 0], [23, 5, 4]),
  block([-6, -7, 0], [6, 7, 10]),
);

let kernel: ManifoldToplevel;
let files: Readonly<Record<'bracket' | 'clamp', Uint8Array<ArrayBuffer>>>;
beforeAll(async () => {
  kernel = await loadKernel();
  const bytes = async (shape: Shape) => Uint8Array.from(await stlOf(shape));
  files = { bracket: await bytes(bracket), clamp: await bytes(clamp) };
});

function modelsOf(bytes: Uint8Array, said: (share: number, seeks?: string) => void = () => {}) {
  return new DonorModels(families, async () => kernel, {
    hash: async () => undefined,
    bytes: async () => bytes,
    reads: async (share, seeks) => said(share, seeks),
  });
}

async function modelOf(
  name: keyof typeof files,
  axis: number | null,
  changes: NonNullable<JobFile['donor']>['changes'] = [],
): Promise<ShownModel> {
  const job = donorJob({ file: `${name}.stl`, bores: [], posts: [] });
  const sheet = await sheetOfModel(
    modelsOf(files[name]),
    async () => kernel,
    { ...job, donor: { ...job.donor!, changes } },
    { axis, roll: 0 },
  );
  if ('kind' in sheet) throw new Error(JSON.stringify(sheet.problems));
  return sheet;
}

describe('the axis that is likely', () => {
  it('has the longest stretch, or the change that is there', async () => {
    // Its neck, along z, is 12 mm; along x and y nothing but strips of its base stays the same.
    expect((await modelOf('bracket', null)).shown).toBe(2);
    expect((await modelOf('bracket', null, [{ axis: 'y', by: 1 }])).shown).toBe(1);
  });
});

const stretchAt = ({ spans }: ShownModel, level: number) =>
  spans.findIndex(({ from, to }) => from < level && level < to);

const pulled = (draft: HandsOn['draft']): HandsOn => ({ draft, at: null, lit: null });

describe('a model under the hand', () => {
  /** Corners of a mesh to a thousandth of a millimetre, each once, in order. */
  const cornersOf = (positions: Float32Array): readonly string[] => {
    const corners = new Set<string>();
    for (let i = 0; i < positions.length; i += 3)
      corners.add(
        [...positions.subarray(i, i + 3)].map((x) => (x + 0).toFixed(3).replace('-0.000', '0.000')).join(' '),
      );
    return [...corners].sort();
  };

  // The second way is the pipeline itself: what the worker makes of the same change.
  it.each([
    { name: 'bracket', axis: 2, at: 12, by: -3.4, changes: [{ axis: 'z', by: -3.4 }] },
    { name: 'clamp', axis: 0, at: -14, by: 2.5, changes: [{ axis: 'x', by: 5 }] },
  ] as const)('lies as the $name then is, corner for corner', async ({ name, axis, at, by, changes }) => {
    const before = await modelOf(name, axis);
    const draft = { span: stretchAt(before, at), by };
    const { map } = shownBands(before, pulled(draft), WIDE);
    const moved = before.round.mesh.positions.slice();
    shiftedInto(moved, before.axes[axis]!.axis, map);
    const after = (await modelOf(name, axis, [...changes])).round.mesh.positions;
    expect(cornersOf(moved)).not.toEqual(cornersOf(before.round.mesh.positions));
    expect(cornersOf(moved)).toEqual(cornersOf(after));
  });

  it('has bands that move along, the changed one longer by what is pulled', async () => {
    const model = await modelOf('bracket', 2);
    const { bands } = shownBands(model, pulled({ span: stretchAt(model, 12), by: 2 }), WIDE);
    const levels = bands.map(({ name, from, to }) => [
      name,
      Math.round(from * 1e3) / 1e3,
      Math.round(to * 1e3) / 1e3,
    ]);
    expect(levels).toEqual([
      ['A', 0, 6],
      ['B', 6, 20],
      ['C', 20, 26],
      ['D', 26, 32],
    ]);
    expect(bands.map(({ tint }) => tint)).toEqual([0, 1, 0, 1]);
  });

  it('moves as the processor that draws it is told to: by its share of each take-up passed', async () => {
    const model = await modelOf('clamp', 0);
    const { map, takeUps } = shownBands(model, pulled({ span: stretchAt(model, -14), by: -4 }), WIDE);
    expect(takeUps).toHaveLength(2);
    const passed = (level: number): number =>
      takeUps.reduce(
        (sum, { from, to, by }) => sum + by * Math.min(1, Math.max(0, (level - from) / (to - from))),
        map!.shift(-Infinity),
      );
    fc.assert(
      fc.property(fc.double({ min: -40, max: 40, noNaN: true }), (level) => {
        expect(passed(level)).toBeCloseTo(map!.shift(level), 9);
      }),
      { seed, numRuns: 300 },
    );
  });
});

describe('the end that is pulled', () => {
  it('is the high one, and goes with the hand', async () => {
    const model = await modelOf('bracket', 2);
    const { level, gain } = pulledEnd(model, stretchAt(model, 12));
    expect(level).toBeCloseTo(18, 5);
    expect(gain).toBeCloseTo(1, 9);
  });

  it('is the outer one of a pair, whose plane of symmetry stays', async () => {
    const model = await modelOf('clamp', 0);
    const [low, high, middle] = [-14, 14, 0].map((at) => stretchAt(model, at)) as [number, number, number];
    const end = (index: number) => pulledEnd(model, index, staysAt(model, index));
    expect(end(low).level).toBeCloseTo(-22, 5);
    expect(end(low).gain).toBeCloseTo(-1, 9);
    expect(end(high).level).toBeCloseTo(22, 5);
    expect(end(high).gain).toBeCloseTo(1, 9);
    // Half of it to either side.
    expect(end(middle).level).toBeCloseTo(6, 5);
    expect(end(middle).gain).toBeCloseTo(0.5, 9);
    // Lying along the rule, with its low end where it is, both of the pair move the high one.
    expect(pulledEnd(model, high).gain).toBeCloseTo(2, 9);
    // A pair has one handle.
    expect(handledIn(model, WIDE)).toContain(low);
    expect(handledIn(model, WIDE)).not.toContain(high);
  });
});

describe('a stretch in the round', () => {
  it('is held at the corners of its section', async () => {
    const model = await modelOf('bracket', 2);
    const neck = model.round.stretches[stretchAt(model, 12)]!;
    const corners = neck.around.map((p) => p.map((x) => Math.round(x * 1e4) / 1e4 + 0).join(' ')).sort();
    expect(corners).toEqual(['-4 -3 0', '-4 3 0', '4 -3 0', '4 3 0']);
    expect(neck.step).toBeLessThan(1e-5);
  });

  it('says by how much walls that lean a little step from end to end', async () => {
    // A square block 100 mm high whose walls lean by 0.004 degrees: from 2 to 98 % of its height each side moves in by 96 tan 0.004
    // degrees, its corners by the square root of two of that.
    const lean = Math.tan((0.004 * Math.PI) / 180);
    const half = (z: number) => 40 - z * lean;
    const corner = (k: number, z: number): Vec3 => [
      (k === 0 || k === 3 ? -1 : 1) * half(z),
      (k < 2 ? -1 : 1) * half(z),
      z,
    ];
    const facets: Vec3[][] = [0, 1, 2, 3].flatMap((k) => {
      const n = (k + 1) % 4;
      return [
        [corner(k, 0), corner(n, 0), corner(n, 100)],
        [corner(k, 0), corner(n, 100), corner(k, 100)],
      ];
    });
    for (const [z, order] of [
      [0, [0, 2, 1, 0, 3, 2]],
      [100, [0, 1, 2, 0, 2, 3]],
    ] as const)
      facets.push(...[0, 3].map((at) => order.slice(at, at + 3).map((k) => corner(k, z))));
    const text = facets
      .map((points) => {
        const lines = points.map((p) => `vertex ${p.map((x) => x.toPrecision(12)).join(' ')}`).join('\n');
        return `facet normal 0 0 0\nouter loop\n${lines}\nendloop\nendfacet`;
      })
      .join('\n');
    const bytes = new TextEncoder().encode(`solid post\n${text}\nendsolid post\n`);
    const job = donorJob({ file: 'post.stl', bores: [], posts: [] });
    const model = await sheetOfModel(
      modelsOf(bytes),
      async () => kernel,
      { ...job, donor: { ...job.donor!, units: 'mm' } },
      { axis: 2, roll: 0 },
    );
    if ('kind' in model) throw new Error(JSON.stringify(model.problems));
    const [span] = model.spans;
    const { step } = model.round.stretches[0]!;
    expect(step).toBeCloseTo(96 * lean * Math.SQRT2, 4);
    const told = sectionWords(span!, { step, sameSection: model.round.sameSection });
    // Sides of 80 mm that lose twice 96 tan, so areas that lose 4 x 96 tan / 80: 0.034 %, below the thousandth that counts as none.
    expect(told.isSame).toBe(true);
    expect(told.words).toBe(
      'sections differ by 0.03 % of 6398.88 mm², walls step 0.01 mm; up to 0.1 % leaves no trace',
    );
  });
});

describe('words about a stretch', () => {
  it.each([
    [8.6, 12, '8.60 mm, 3.40 shorter than in the model'],
    [12.5, 12, '12.50 mm, 0.50 longer than in the model'],
    [12, 12, '12.00 mm, as in the model'],
  ])('of %f that was %f', (now, was, words) => {
    expect(lengthWords(now, was)).toBe(words);
  });

  it('say that sections are not the same where they are not', () => {
    const told = sectionWords({ area: 100, mismatchArea: 1 }, { step: null, sameSection: 1e-3 });
    expect(told.isSame).toBe(false);
    expect(told.words).toMatch(/^sections differ by 1.00 % of 100.00 mm²; up to 0.1 %/);
  });
});

describe('handles beside a part', () => {
  const apart = (a: Readonly<Vec2>, b: Readonly<Vec2>) => Math.hypot(a[0] - b[0], a[1] - b[1]);
  /** Outlines of ends along a part that lies at some angle across a picture. */
  const picture = fc
    .record({
      width: fc.integer({ min: 320, max: 900 }),
      height: fc.integer({ min: 272, max: 640 }),
      angle: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
      shares: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 }),
      half: fc.double({ min: 4, max: 60, noNaN: true }),
    })
    .map(({ width, height, angle, shares, half }) => {
      const along: Vec2 = [Math.cos(angle), Math.sin(angle)];
      const long = Math.min(width, height) / 1.5;
      const ends = [...shares]
        .sort((a, b) => a - b)
        .map((share) => {
          const middle = [0, 1].map((c) => [width, height][c]! / 2 + (share - 0.5) * long * along[c]!);
          return [-1, 1].map(
            (side): Vec2 => [middle[0]! - side * half * along[1], middle[1]! + side * half * along[0]],
          );
        });
      return { size: [width, height] as Vec2, along, ends };
    });

  it('are in the picture, each a thumb away from the next', () => {
    fc.assert(
      fc.property(picture, ({ size, along, ends }) => {
        const placed = placeHandles(ends, along, size).map(({ at }) => at);
        for (const at of placed)
          for (const c of [0, 1] as const) {
            expect(at[c]).toBeGreaterThanOrEqual(22);
            expect(at[c]).toBeLessThanOrEqual(size[c] - 22);
          }
        // WCAG 2.5.8 (AA) wants 24 pixels; these are meant to have the 44 of 2.5.5.
        for (const [k, a] of placed.entries())
          for (const b of placed.slice(k + 1)) expect(apart(a, b)).toBeGreaterThanOrEqual(44);
      }),
      { seed, numRuns: 400 },
    );
  });

  it('stand beside their own end where there is room', () => {
    const end = (x: number): Vec2[] => [
      [x, 150],
      [x, 250],
    ];
    const placed = placeHandles([end(100), end(300)], [1, 0], [600, 400]);
    expect(placed.map(({ at }) => at[0])).toEqual([100, 300]);
    for (const { at, spot } of placed) {
      expect(spot[1]).toBe(250);
      expect(at[1]).toBeGreaterThan(250 + 22);
      expect(at[1]).toBeLessThan(250 + 44);
    }
  });
});

describe('a large model', () => {
  it('says what is being done with it, to its end', async () => {
    // A cube whose faces are divided into 60 by 60 squares: 43 200 triangles, 2.1 MB.
    const n = 60;
    const buffer = new DataView(new ArrayBuffer(84 + 50 * 12 * n * n));
    buffer.setUint32(80, 12 * n * n, true);
    let at = 84;
    const facet = (corners: readonly Vec3[]): void => {
      for (const [k, x] of corners.flat().entries()) buffer.setFloat32(at + 12 + 4 * k, x, true);
      at += 50;
    };
    for (const axis of [0, 1, 2])
      for (const side of [0, 1])
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) {
            const place = (u: number, v: number): Vec3 => {
              const p: Vec3 = [0, 0, 0];
              p[axis] = side * n;
              p[(axis + 1) % 3] = i + u;
              p[(axis + 2) % 3] = j + v;
              return p;
            };
            const [a, b, c, d] = [place(0, 0), place(1, 0), place(1, 1), place(0, 1)];
            for (const corners of side === 1
              ? [
                  [a, b, c],
                  [a, c, d],
                ]
              : [
                  [a, c, b],
                  [a, d, c],
                ])
              facet(corners);
          }
    const said: string[] = [];
    const models = modelsOf(new Uint8Array(), (share, seeks) => {
      const words = share > 0 ? doingWords('cube.stl', { share, seeks: seeks as 'features' }) : 'done';
      if (said.at(-1) !== words) said.push(words);
    });
    const found = await lookAtModel(models, 'cube.stl', new Uint8Array(buffer.buffer));
    expect(found).toMatchObject({ triangles: 12 * n * n });
    expect(said).toEqual([
      'Reading cube.stl ...',
      'Looking for bores and posts on cube.stl ...',
      'done',
      'Looking where cube.stl can become longer or shorter ...',
      'done',
    ]);
  });
});
