import { describe, expect, test } from 'vitest';
import { drawnSize, predictedSize } from '../../src/printer/behaviour.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { layersBelow, printedHeight } from '../../src/printer/layers.ts';
import { type Measurand, rectangleHydraulic, stadiumHydraulic } from '../../src/printer/measurand.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

const printer: PrinterProfile = {
  ...defaultPrinter,
  calibrated: '2024-11-20',
  scale: { x: { value: 0.998, u: 0.0005 }, y: { value: 1.001, u: 0.0004 }, z: { value: 1.002, u: 0.0003 } },
  outerGrowth: { value: 0.05, u: 0.01 },
  boreShrink: { value: 0.08, u: 0.012 },
  boreCurvature: { value: 0.12, u: 0.02 },
};
const along = (
  kind: Measurand['kind'],
  direction: Measurand['direction'],
  rest: Partial<Measurand> = {},
): Measurand => ({
  kind,
  direction,
  ...rest,
});
const S = Math.SQRT1_2;

describe('in the plane of the bed, by hand', () => {
  test.each<[string, Measurand, number, number]>([
    ['post', along('post', [1, 0, 0]), 5, 5 * 0.998 + 0.1],
    ['rib along y', along('rib', [0, 1, 0]), 5, 5 * 1.001 + 0.1],
    ['bore', along('bore', [1, 0, 0]), 4, 4 * 0.998 - 0.16 - 0.12 / 4],
    ['long slot', along('slot', [1, 0, 0]), 4, 4 * 0.998 - 0.16 - 0.12 / 8],
    [
      'square hole',
      along('slot', [1, 0, 0], { hydraulic: rectangleHydraulic(4) }),
      4,
      4 * 0.998 - 0.16 - 0.12 / 4,
    ],
    ['outer face to axis', along('step', [-1, 0, 0]), 10, 9.98 + 0.05],
    ['wall beside a bore', along('step', [1, 0, 0], { faces: { outer: 1, inner: 1 } }), 2, 1.996 + 0.13],
    ['faces that look alike', along('step', [0, -1, 0], { faces: { outer: 0, inner: 0 } }), 10, 10.01],
    ['diagonal post', along('post', [S, S, 0]), 10, 10 * 0.9995 + 0.1],
    ['tilted bore', along('bore', [0, 0.8, 0.6]), 4, 4 * (0.64 * 1.001 + 0.36 * 1.002) - 0.8 * (0.16 + 0.03)],
    ['tilted 30 degrees', along('post', [Math.sqrt(3) / 2, 0, 0.5]), 10, 10 * 0.999 + 0.05 * Math.sqrt(3)],
  ])('%s', (_, measurand, drawn, printed) => {
    expect(predictedSize(drawn, measurand, printer).value).toBeCloseTo(printed, 12);
    expect(drawnSize(printed, measurand, printer)).toBeCloseTo(drawn, 9);
  });
});

test('sensitivities are the derivatives by each number of the profile', () => {
  const step = 1e-6;
  const measurand = along('bore', [0.6, 0.8, 0]);
  const { value, sensitivity, contributors } = predictedSize(3, measurand, printer);
  const moved = (profile: PrinterProfile) => (predictedSize(3, measurand, profile).value - value) / step;
  const more = ({ value, u }: { value: number; u: number }) => ({ value: value + step, u });
  expect(sensitivity['printer:scale.x']).toBeCloseTo(
    moved({ ...printer, scale: { ...printer.scale, x: more(printer.scale.x) } }),
    6,
  );
  expect(sensitivity['printer:scale.y']).toBeCloseTo(
    moved({ ...printer, scale: { ...printer.scale, y: more(printer.scale.y) } }),
    6,
  );
  expect(sensitivity['printer:boreShrink']).toBeCloseTo(
    moved({ ...printer, boreShrink: more(printer.boreShrink) }),
    6,
  );
  expect(sensitivity['printer:boreCurvature']).toBeCloseTo(
    moved({ ...printer, boreCurvature: more(printer.boreCurvature) }),
    6,
  );
  expect(sensitivity['printer:outerGrowth']).toBeUndefined();
  expect(contributors.map(({ id }) => id)).toEqual(Object.keys(sensitivity));
  expect(contributors.every(({ distribution }) => distribution === 'normal')).toBe(true);
  expect(predictedSize(3, measurand, defaultPrinter).contributors[0]!.distribution).toBe('rectangular');
});

describe('along z', () => {
  // Layers of 0.2 with a first of 0.3: middles at 0.15, 0.4, 0.6, 0.8 and boundaries at 0.3, 0.5, 0.7, 0.9.
  const stack: PrinterProfile = {
    ...printer,
    firstLayer: 0.3,
    scale: { ...printer.scale, z: { value: 1, u: 0 } },
  };
  test.each([
    [0, 0],
    [0.149, 0],
    [0.151, 0.3],
    [0.399, 0.3],
    [0.401, 0.5],
    [0.599, 0.5],
    [0.601, 0.7],
    [0.9, 0.9],
  ])('a face drawn at %d mm comes out at %d mm', (height, printed) => {
    expect(printedHeight(height, stack)).toBeCloseTo(printed, 12);
  });

  test('counts layers past the rounding of their sums', () => {
    for (let n = 1; n <= 2000; n++) expect(layersBelow(0.2 * n, printer)).toBe(n);
  });

  test('does not grow, and hangs on scale and on the first layer when it stands on the bed', () => {
    const height = predictedSize(3, along('post', [0, 0, 1]), printer);
    expect(height.value).toBeCloseTo(3 * 1.002, 12);
    expect(height.sensitivity['printer:scale.z']).toBeCloseTo(3, 12);
    expect(height.sensitivity['printer:firstLayerError']).toBe(1);
    expect(Object.keys(height.sensitivity)).toHaveLength(2);
    const above = predictedSize(3, along('bore', [0, 0, -1], { lowerFace: 1 }), printer);
    expect(Object.keys(above.sensitivity)).toEqual(['printer:scale.z']);
    expect(above.value).toBeCloseTo(3 * 1.002, 12);
  });

  test('a roof hangs, and the inverse draws for it', () => {
    const hollow = along('slot', [0, 0, 1], { lowerFace: 1, roof: true });
    const sagging = { ...printer, levelSag: { value: 0.15, u: 0.03 } };
    const height = predictedSize(3, hollow, sagging);
    expect(height.value).toBeCloseTo(3 * 1.002 - 0.15, 12);
    expect(height.sensitivity).toEqual({ 'printer:scale.z': 3, 'printer:levelSag': -1 });
    expect(drawnSize(3 * 1.002 - 0.15, hollow, sagging)).toBeCloseTo(3, 9);
  });

  test('an underside hangs unless it stands on the bed, and the inverse draws for it', () => {
    const sagging = { ...printer, levelSag: { value: 0.15, u: 0.03 } };
    const raised = along('post', [0, 0, 1], { lowerFace: 1, underside: true });
    expect(predictedSize(3, raised, sagging).value).toBeCloseTo(3 * 1.002 + 0.15, 12);
    expect(predictedSize(3, raised, sagging).sensitivity).toEqual({
      'printer:scale.z': 3,
      'printer:levelSag': 1,
    });
    expect(drawnSize(3 * 1.002 + 0.15, raised, sagging)).toBeCloseTo(3, 9);
    const standing = predictedSize(3, along('post', [0, 0, 1], { lowerFace: 0, underside: true }), sagging);
    expect(standing.sensitivity).not.toHaveProperty('printer:levelSag');
  });

  test('a round that lies level is as wide as its widest layer, and the inverse draws for it', () => {
    // Layers of 0.2 mm from 0.3 mm up: one boundary at 2.5 mm, the middles on either side 0.1 mm off.
    const plain = { ...stack, scale: { x: one, y: one, z: one } };
    const lying = along('step', [1, 0, 0], {
      faces: { outer: 0, inner: 0 },
      lying: { diameter: 2, axis: 2.5 },
    });
    const chord = Math.sqrt(2 ** 2 - 0.2 ** 2);
    expect(predictedSize(2, lying, plain).value).toBeCloseTo(chord, 12);
    expect(drawnSize(chord, lying, plain)).toBeCloseTo(2, 12);
    // With a layer's middle at the axis nothing is lost.
    const centred = { ...lying, lying: { diameter: 2, axis: 2.6 } };
    expect(predictedSize(2, centred, plain).value).toBeCloseTo(2, 12);
    // A slot 6 mm long with ends as round as that loses as much at its ends.
    expect(predictedSize(6, lying, plain).value).toBeCloseTo(6 - (2 - chord), 12);
  });

  test('the axis of a hollow goes with its floor, half its height above', () => {
    // Layers of 0.2 mm from 0.3 mm up: a face at 2.65 mm prints at 2.7, a floor at 6.66 at 6.7, the axis 0.83 above.
    const axis = along('step', [0, 0, 1], { lowerFace: 2.65, below: 0.83 });
    const plain = { ...stack, scale: { x: one, y: one, z: one } };
    expect(predictedSize(6.66 + 0.83 - 2.65, axis, plain).value).toBeCloseTo(6.7 + 0.83 - 2.7, 12);
    const drawn = drawnSize(5, axis, plain);
    // The floor on the boundary that brings the axis nearest: at 6.9, the axis 5.03 above the printed face.
    expect(2.65 + drawn - 0.83).toBeCloseTo(6.9, 9);
    expect(predictedSize(drawn, axis, plain).value).toBeCloseTo(6.9 + 0.83 - 2.7, 12);
    expect(predictedSize(drawn, axis, plain).sensitivity).not.toHaveProperty('printer:layerRounding');
  });

  test('a thick first layer lifts what stands on the bed', () => {
    const thick = { ...printer, firstLayerError: { value: 0.06, u: 0.02 } };
    const upright = along('post', [0, 0, 1]);
    expect(predictedSize(3, upright, thick).value).toBeCloseTo(3 * 1.002 + 0.06, 12);
    expect(predictedSize(3, along('step', [0, 0, 1], { lowerFace: 1 }), thick).value).toBeCloseTo(3.006, 12);
    expect(drawnSize(3 * 1.002 + 0.06, upright, thick)).toBeCloseTo(3, 9);
  });

  test('draws whole layers, in the middle of the step', () => {
    const upright = along('post', [0, 0, 1]);
    const drawn = drawnSize(3.07, upright, stack);
    expect(drawn).toBeCloseTo(3.1, 12);
    for (const shift of [-0.099, 0.099])
      expect(predictedSize(drawn + shift, upright, stack).value).toBeCloseTo(3.1, 12);
    const floating = drawnSize(1, along('slot', [0, 0, 1], { lowerFace: 0.45 }), stack);
    expect(0.45 + floating).toBeCloseTo(1.5, 12);
  });
});

// Closed forms of 4 A / P: a circle has its diameter, a wide slit twice its width.
test('hydraulic diameters run from bore to slit', () => {
  expect(stadiumHydraulic(2)(2)).toBeCloseTo(2, 12);
  expect(stadiumHydraulic(1e6)(2)).toBeCloseTo(4, 4);
  expect(stadiumHydraulic(10)(2)).toBeCloseTo((4 * (16 + Math.PI)) / (16 + 2 * Math.PI), 12);
  expect(rectangleHydraulic(1e6)(2)).toBeCloseTo(4, 4);
  expect(rectangleHydraulic(4)(4)).toBe(4);
});

describe('refuses, and says which', () => {
  const x: Measurand = along('post', [1, 0, 0]);
  test.each<[string, () => unknown, string]>([
    ['a post thinner than its own growth', () => drawnSize(0.1, x, printer), 'size_not_reachable'],
    [
      'a height below half a layer',
      () => drawnSize(0.05, along('post', [0, 0, 1]), printer),
      'size_not_reachable',
    ],
    ['a bore of nothing', () => drawnSize(0, along('bore', [1, 0, 0]), printer), 'size_out_of_range'],
    ['NaN', () => drawnSize(Number.NaN, x, printer), 'size_out_of_range'],
    ['a drawn size below 0', () => predictedSize(-1, x, printer), 'size_out_of_range'],
    ['an infinite size', () => predictedSize(Infinity, x, printer), 'size_out_of_range'],
    [
      'a direction that is no unit vector',
      () => predictedSize(1, along('post', [1, 1, 0]), printer),
      'direction_not_unit',
    ],
  ])('%s', (_, call, code) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });

  test('a small bore that widens (negative curvature) has a smallest printed size', () => {
    const odd = { ...printer, boreCurvature: { value: -0.2, u: 0 }, boreShrink: { value: -0.1, u: 0 } };
    // D s + 0.2 + 0.2 / D is least at D = sqrt(0.2 / s): 0.2 + 2 sqrt(0.2 s) = 1.0935.
    expect(() => drawnSize(1.09, along('bore', [1, 0, 0]), odd)).toThrow(
      expect.objectContaining({ code: 'size_not_reachable' }),
    );
    const drawn = drawnSize(1.5, along('bore', [1, 0, 0]), odd);
    expect(predictedSize(drawn, along('bore', [1, 0, 0]), odd).value).toBeCloseTo(1.5, 9);
  });
});

describe('a step along z', () => {
  const rounding = (lowerFace?: number) =>
    predictedSize(
      5,
      { kind: 'step', direction: [0, 0, 1], ...(lowerFace === undefined ? {} : { lowerFace }) },
      defaultPrinter,
    ).contributors.find(({ id }) => id === 'printer:layerRounding');

  test('knows that both its ends come to the nearest layer: a triangle one layer either way', () => {
    // JCGM 100:2008, 4.3.9: u = a / sqrt 6 of a triangle of half-width a.
    expect(rounding()?.u).toBeCloseTo(defaultPrinter.layer / Math.sqrt(6), 12);
  });

  test('has no such doubt where the height of its lower end is known', () => {
    expect(rounding(0.4)).toBeUndefined();
  });
});

const one = { value: 1, u: 0 };
const none = { outer: 0, inner: 0 };

describe('at the first layer', () => {
  const spreading = { ...printer, firstLayerSpread: { value: 0.12, u: 0.03 } };
  test.each([
    ['post', 2],
    ['bore', -2],
    ['step', 1],
  ] as const)('every growing face of a %s spreads', (kind, faces) => {
    const above = predictedSize(5, along(kind, [1, 0, 0]), spreading);
    const below = predictedSize(5, along(kind, [1, 0, 0], { atBed: true }), spreading);
    expect(below.value - above.value).toBeCloseTo(faces * 0.12, 12);
    expect(below.sensitivity['printer:firstLayerSpread']).toBe(faces);
    expect(drawnSize(below.value, along(kind, [1, 0, 0], { atBed: true }), spreading)).toBeCloseTo(5, 9);
  });
});

test('skew lengthens one diagonal and shortens the other', () => {
  // A square of side a sheared by k has diagonals a sqrt((1 + k)^2 + 1) and a sqrt((1 - k)^2 + 1): to first order
  // a sqrt 2 (1 +- k / 2).
  const leaning = { ...printer, scale: { x: one, y: one, z: one }, skew: { value: 0.004, u: 0 } };
  const r = Math.SQRT1_2;
  for (const side of [1, -1] as const) {
    const { value, sensitivity } = predictedSize(
      60,
      along('step', [r, side * r, 0], { faces: none }),
      leaning,
    );
    const exact = (60 / Math.SQRT2) * Math.hypot(1 + side * 0.004, 1);
    expect(value).toBeCloseTo(exact, 3);
    expect(sensitivity['printer:skew']).toBeCloseTo(side * 30, 9);
  }
});
