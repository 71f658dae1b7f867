import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findMaterial } from '../../src/standards/materials.ts';
import type { BlockOutline } from '../../src/strength/blockShape.ts';
import { blockShape, shapeFactor } from '../../src/strength/blockShape.ts';
import type { GrippedFaces, RubberBlock } from '../../src/strength/rubberBlock.ts';
import { blockModulus, compressBlock, freeHeight, pressBlock } from '../../src/strength/rubberBlock.ts';
import { gentModulus, naturalRubber, printedRubber } from '../../src/strength/rubberCompound.ts';

const disc = (diameter: number): BlockOutline => ({ kind: 'disc', diameter });
const plain = { modulus: 3, shapeShare: 1, bulk: Infinity };

describe('P. B. Lindley, Engineering Design with Natural Rubber (table from memory, worked through by hand)', () => {
  it('shape factors: disc D / (4 t), rectangle a b / (2 t (a + b)), ring (D - d) / (4 t)', () => {
    expect(shapeFactor(disc(20), 5)).toBeCloseTo(1, 12);
    expect(shapeFactor({ kind: 'rectangle', length: 40, width: 20 }, 5)).toBeCloseTo(4 / 3, 12);
    expect(shapeFactor({ kind: 'ring', diameter: 20, bore: 8 }, 5)).toBeCloseTo(0.6, 12);
  });

  it('disc 20 x 5 of 60 IRHD: E_c = 4.45 (1 + 2 0.57) = 9.523 MPa, with bulk 9.44479, 598.35 N/mm unheld by bulk', () => {
    const block = { outline: disc(20), height: 5, compound: naturalRubber(60) };
    expect(blockModulus(block)).toBeCloseTo(9.44479, 5);
    const stiff = { ...block, compound: { ...block.compound, bulk: Infinity } };
    expect(blockModulus(stiff)).toBeCloseTo(9.523, 9);
    expect(compressBlock(stiff, 0).stiffness).toBeCloseTo(598.35, 2);
  });

  it('tall soft pad, disc 10 x 10 of 40 IRHD: E_c 1.659375 MPa, 13.033 N/mm', () => {
    const compound = { ...naturalRubber(40), bulk: Infinity };
    const block = { outline: disc(10), height: 10, compound };
    expect(blockModulus(block)).toBeCloseTo(1.659375, 9);
    expect(compressBlock(block, 0).stiffness).toBeCloseTo(13.033, 3);
  });

  it('a case of 8 kg on four feet 15 x 6 of 55 IRHD: 143.581 N/mm a foot, 0.1366 mm by the straight law, 0.11099 MPa', () => {
    const block = { outline: disc(15), height: 6, compound: { ...naturalRubber(55), bulk: Infinity } };
    const foot = compressBlock(block, (8 * 9.80665) / 4);
    expect(compressBlock(block, 0).stiffness).toBeCloseTo(143.581, 2);
    expect(foot.pressure).toBeCloseTo(0.11099, 5);
    // The straight law is the tangent at 0; the large-strain law stiffens by about one strain, 2.3 %.
    expect(foot.deflection / 0.1366).toBeCloseTo(1 - 0.0228, 2.7);
    expect(foot.holds).toBe(true);
  });

  it('keeps the rows of the table and runs straight between them', () => {
    expect(naturalRubber(30)).toEqual({ modulus: 0.92, shapeShare: 0.93, bulk: 1000 });
    expect(naturalRubber(65)).toEqual({ modulus: 5.85, shapeShare: 0.54, bulk: 1210 });
    expect(naturalRubber(75)).toEqual({ modulus: 9.4, shapeShare: 0.52, bulk: 1330 });
    expect(naturalRubber(57.5).modulus).toBeCloseTo((3.25 + 4.45) / 2, 12);
  });
});

describe('A. N. Gent, Rubber Chem. Technol. 31 (1958) 896', () => {
  it.each([
    [30, 1.142372],
    [40, 1.689639],
    [50, 2.455812],
    [60, 3.605073],
    [70, 5.520507],
    [80, 9.351375],
    [95, 43.829188],
  ])('Shore A %d is %d MPa', (hardness, modulus) => {
    expect(gentModulus(hardness)).toBeCloseTo(modulus, 5);
  });

  it('is near the modulus of the printed material of 95 A, and within 40 % of natural rubber of the same hardness', () => {
    const tpu = findMaterial('TPU')!;
    expect(gentModulus(95) / tpu.modulusAlong.value).toBeCloseTo(1, 1);
    expect(printedRubber(tpu).modulus).toBe(tpu.modulusAcross.value);
    expect(printedRubber(tpu, 85).modulus).toBe(gentModulus(85));
    for (let h = 30; h <= 75; h += 5) {
      expect(Math.abs(Math.log(gentModulus(h) / naturalRubber(h).modulus))).toBeLessThan(Math.log(1.4));
    }
  });
});

describe('hold of other outlines', () => {
  // Timoshenko and Goodier, Theory of Elasticity, table of torsion of rectangular bars: k1 for b/a.
  it.each([
    [1, 0.1406],
    [1.2, 0.166],
    [1.5, 0.196],
    [2, 0.229],
    [2.5, 0.249],
    [3, 0.263],
    [4, 0.281],
    [5, 0.291],
    [10, 0.312],
    [1e6, 1 / 3],
  ])('rectangle %d: torsion constant %d', (ratio, k1) => {
    const found = blockShape({ kind: 'rectangle', length: 10 * ratio, width: 10 }).hold / 100;
    expect(Math.abs(found / k1 - 1)).toBeLessThan(0.002);
  });

  it('J. M. Kelly, Earthquake-Resistant Design with Rubber: 6 G S^2 disc, 6.73 G S^2 square, 4 G S^2 strip (from memory)', () => {
    const perShear = (outline: BlockOutline, height: number) =>
      blockModulus({ outline, height, compound: plain }) / 1 / shapeFactor(outline, height) ** 2;
    // G = E / 3 = 1; so flat that the 1 beside S^2 does not count.
    expect(perShear(disc(100), 0.5)).toBeCloseTo(6, 2);
    expect(perShear({ kind: 'rectangle', length: 100, width: 100 }, 0.5) / 6.73).toBeCloseTo(1, 2);
    expect(perShear({ kind: 'rectangle', length: 1e6, width: 100 }, 0.5)).toBeCloseTo(4, 2);
  });

  it.each([[0.05], [0.3], [0.6], [0.9]])(
    'ring, bore %d of its diameter: the pressure equation solved by finite differences',
    (share) => {
      // (r p')' = -r with p = 0 at both edges, on a fine grid by the Thomas algorithm; hold = 4 mean(p).
      const n = 4000;
      const [inner, outer] = [share, 1];
      const step = (outer - inner) / n;
      const upper = new Float64Array(n);
      const right = new Float64Array(n);
      for (let i = 1; i < n; i++) {
        const r = inner + i * step;
        const [below, above] = [r - step / 2, r + step / 2];
        const pivot = -(below + above) - below * upper[i - 1]!;
        upper[i] = above / pivot;
        right[i] = (-r * step * step - below * right[i - 1]!) / pivot;
      }
      let [p, volume] = [0, 0];
      for (let i = n - 1; i > 0; i--) {
        p = right[i]! - upper[i]! * p;
        volume += p * (inner + i * step) * step * 2;
      }
      const expected = (4 * volume) / (outer ** 2 - inner ** 2);
      expect(blockShape({ kind: 'ring', diameter: 2, bore: 2 * share }).hold / expected).toBeCloseTo(1, 4);
    },
  );

  it('a ring without bore is a disc, and a fine bore changes it little', () => {
    const full = blockShape(disc(20));
    expect(blockShape({ kind: 'ring', diameter: 20, bore: 0 }).hold).toBe(full.hold);
    expect(blockShape({ kind: 'ring', diameter: 20, bore: 1e-300 }).hold / full.hold).toBeCloseTo(1, 2);
  });
});

describe('limits', () => {
  it('a tall block, or one that slides on both faces, is a bar of E0; a flat one is its bulk', () => {
    for (const outline of [disc(10), { kind: 'rectangle', length: 30, width: 10 } as const]) {
      expect(blockModulus({ outline, height: 1e5, compound: plain })).toBeCloseTo(3, 6);
      expect(blockModulus({ outline, height: 1, compound: plain, gripped: 0 })).toBe(3);
      const flat = { outline, height: 1e-4, compound: { ...plain, bulk: 1000 } };
      expect(blockModulus(flat)).toBeCloseTo(1000, 2);
    }
  });

  it('a sliding block is the neo-Hookean bar: G (L - 1 / L^2) (Treloar, The Physics of Rubber Elasticity)', () => {
    const block: RubberBlock = { outline: disc(10), height: 10, compound: plain, gripped: 0 };
    for (const stretch of [0.99, 0.8, 0.6]) {
      const { force } = pressBlock(block, 10 * (1 - stretch));
      expect(force / (1 * Math.PI * 25)).toBeCloseTo(1 / stretch ** 2 - stretch, 12);
    }
  });

  it('a long strip between gripping faces is in plane strain: 4/3 E (1 + S^2)', () => {
    const outline = { kind: 'rectangle', length: 1e6, width: 10 } as const;
    for (const height of [1, 3, 8]) {
      const S = 10 / (2 * height);
      expect(blockModulus({ outline, height, compound: plain }) / (4 * (1 + S * S))).toBeCloseTo(1, 4);
    }
  });

  it('gripped on one face it is half of a block twice as high', () => {
    const one = compressBlock({ outline: disc(12), height: 5, compound: plain, gripped: 1 }, 30);
    const both = compressBlock({ outline: disc(12), height: 10, compound: plain, gripped: 2 }, 30);
    expect(one.deflection).toBeCloseTo(both.deflection / 2, 12);
    expect(one.bulge).toBeCloseTo(both.bulge, 12);
  });
});

const outlines = fc.oneof(
  fc.record({ kind: fc.constant('disc' as const), diameter: fc.double({ min: 4, max: 60, noNaN: true }) }),
  fc.record({
    kind: fc.constant('rectangle' as const),
    length: fc.double({ min: 4, max: 80, noNaN: true }),
    width: fc.double({ min: 4, max: 80, noNaN: true }),
  }),
  fc
    .record({
      diameter: fc.double({ min: 6, max: 60, noNaN: true }),
      share: fc.double({ min: 0, max: 0.9, noNaN: true }),
    })
    .map(({ diameter, share }) => ({ kind: 'ring' as const, diameter, bore: diameter * share })),
);
const blocks: fc.Arbitrary<RubberBlock> = fc.record({
  outline: outlines,
  height: fc.double({ min: 1, max: 30, noNaN: true }),
  compound: fc.record({
    modulus: fc.double({ min: 0.9, max: 60, noNaN: true }),
    shapeShare: fc.double({ min: 0, max: 1, noNaN: true }),
    bulk: fc.constantFrom(1000, Infinity),
  }),
  gripped: fc.constantFrom<GrippedFaces>(0, 1, 2),
});
const forces = fc.double({ min: 0, max: 200, noNaN: true });

describe('over the whole range', () => {
  it('force, deflection and free height turn back into one another, and stiffness is their slope', () => {
    fc.assert(
      fc.property(blocks, forces, (block, force) => {
        const down = compressBlock(block, force);
        expect(down.height).toBeGreaterThan(0);
        expect(down.deflection).toBeGreaterThanOrEqual(0);
        expect(pressBlock(block, down.deflection).force).toBeCloseTo(force, 6);
        const free = freeHeight(block, down.height, force);
        expect(compressBlock({ ...block, height: free }, force).height / down.height).toBeCloseTo(1, 9);
        const more = compressBlock(block, force + 1e-4);
        const slope = 1e-4 / (more.deflection - down.deflection);
        expect(slope / down.stiffness).toBeCloseTo(1, 2);
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  it('keeps its volume: the bowed block turned or swept into a solid', () => {
    let bulged = 0;
    fc.assert(
      fc.property(blocks, fc.double({ min: 0, max: 1000, noNaN: true }), (block, force) => {
        const { height, bulge } = compressBlock(block, force);
        const { outline } = block;
        const steps = 2000;
        let volume = 0;
        for (let i = 0; i < steps; i++) {
          const z = (i + 0.5) / steps;
          const profile = block.gripped === 0 ? 1 : block.gripped === 1 ? 1 - z * z : 1 - (2 * z - 1) ** 2;
          const u = bulge * profile;
          const section =
            outline.kind === 'rectangle'
              ? outline.length * outline.width + 2 * (outline.length + outline.width) * u + Math.PI * u * u
              : outline.kind === 'disc'
                ? Math.PI * (outline.diameter / 2 + u) ** 2
                : Math.PI *
                  ((outline.diameter / 2 + u) ** 2 - (outline.bore > 0 ? (outline.bore / 2 - u) ** 2 : 0));
          volume += (section * height) / steps;
        }
        if (bulge > 0.5) bulged++;
        expect(volume / (blockShape(outline).area * block.height)).toBeCloseTo(1, 5);
      }),
      { seed: 12, numRuns: 300 },
    );
    expect(bulged).toBeGreaterThan(10);
  });

  it('more load, a softer rubber or a sliding face never make it stiffer', () => {
    fc.assert(
      fc.property(blocks, fc.double({ min: 0.1, max: 200, noNaN: true }), (block, force) => {
        const { deflection } = compressBlock(block, force);
        expect(compressBlock(block, force * 1.1).deflection).toBeGreaterThan(deflection);
        const soft = { ...block, compound: { ...block.compound, modulus: block.compound.modulus * 0.9 } };
        expect(compressBlock(soft, force).deflection).toBeGreaterThan(deflection);
        for (const gripped of [0, 1, 2] as const) {
          if (gripped <= block.gripped!) {
            expect(compressBlock({ ...block, gripped }, force).deflection).toBeGreaterThanOrEqual(
              deflection * (1 - 1e-12),
            );
          }
        }
      }),
      { seed: 13, numRuns: 300 },
    );
  });
});

describe('what a block refuses', () => {
  const good: RubberBlock = { outline: disc(10), height: 5, compound: plain };
  it.each([
    [
      'rubber block requires diameter above 0 (given 0)',
      () => compressBlock({ ...good, outline: disc(0) }, 1),
    ],
    ['rubber block requires height above 0 (given -1)', () => compressBlock({ ...good, height: -1 }, 1)],
    ['rubber block requires force 0 N or above (given -1)', () => compressBlock(good, -1)],
    ['rubber block requires deflection 0 to below 5 mm (given 5)', () => pressBlock(good, 5)],
    ['rubber block requires height under load above 0 (given 0)', () => freeHeight(good, 0, 1)],
    [
      'rubber block requires bore 0 to below 10 mm (given 10)',
      () => blockModulus({ ...good, outline: { kind: 'ring', diameter: 10, bore: 10 } }),
    ],
    [
      'rubber block requires shapeShare 0 to 1 (given 2)',
      () => blockModulus({ ...good, compound: { ...plain, shapeShare: 2 } }),
    ],
    [
      'rubber block requires bulk above 0 MPa (given 0)',
      () => blockModulus({ ...good, compound: { ...plain, bulk: 0 } }),
    ],
    ['modulus from hardness requires Shore A 20 to 95 (given 99)', () => gentModulus(99)],
    ['natural rubber requires hardness 30 to 75 IRHD (given 80)', () => naturalRubber(80)],
    [
      'rubber block requires modulus of PLA up to 200 MPa, TPU for instance (given 3000)',
      () => printedRubber(findMaterial('PLA')!),
    ],
  ])('%s', (sentence, call) => {
    expect(call).toThrow(new RangeError(sentence));
  });
});
