import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { defaultCallipers } from '../../../src/measure/index.ts';
import type { Callipers } from '../../../src/measure/types.ts';
import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import type { Measurand } from '../../../src/printer/measurand.ts';

// A coupon and printers that exist only here, and what they print by plain arithmetic: none of it goes through the
// code under test.

/** What an invented printer does, plain numbers. */
export interface TruePrinter {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly growth: number;
  readonly shrink: number;
  readonly curvature: number;
  readonly spread: number;
  readonly thicker: number;
  readonly sag: number;
  readonly skew: number;
  readonly scatter: number;
}

/** A feature and the size that comes off an invented printer before its scatter. */
interface Item {
  readonly feature: CouponFeature;
  readonly printed: (printer: TruePrinter) => number;
}

let count = 0;
function item(
  id: string,
  nominal: number,
  measurand: Measurand,
  jaw: 'outside' | 'inside' | 'depth',
  printed: Item['printed'],
): Item {
  count++;
  const round = measurand.kind === 'bore';
  return {
    feature: {
      id,
      number: count,
      kind: measurand.kind,
      axis: round ? 'z' : ([...measurand.direction] as [number, number, number]),
      nominal,
      at: [0, 0, 0],
      callout: [
        [0, 0, 0],
        [0, 0, 0],
      ],
      measurand,
      reading: { id, name: id.replaceAll('.', ' '), jaw, round, from: nominal - 1, to: nominal + 1 },
      times: 1,
      tip: 'put the jaws there',
    },
    printed,
  };
}

const X = [1, 0, 0] as const;
const Y = [0, 1, 0] as const;
const Z = [0, 0, 1] as const;

const bores = [1.5, 2, 3, 4, 5, 6, 8, 10, 12].map((d) =>
  item(
    `bore.${String(d).replace('.', '')}`,
    d,
    { kind: 'bore', direction: X },
    'inside',
    (p) => d * p.x - 2 * p.shrink - p.curvature / d,
  ),
);
const posts = [3, 5, 8].flatMap((w) => [
  item(`post.x.${w}`, w, { kind: 'post', direction: X }, 'outside', (p) => w * p.x + 2 * p.growth),
  item(`post.y.${w}`, w, { kind: 'post', direction: Y }, 'outside', (p) => w * p.y + 2 * p.growth),
]);
const slots = [2, 4, 6].flatMap((w) => [
  item(
    `slot.x.${w}`,
    w,
    { kind: 'slot', direction: X },
    'inside',
    (p) => w * p.x - 2 * p.shrink - p.curvature / (2 * w),
  ),
  item(
    `slot.y.${w}`,
    w,
    { kind: 'slot', direction: Y },
    'inside',
    (p) => w * p.y - 2 * p.shrink - p.curvature / (2 * w),
  ),
]);
const like = { outer: 0, inner: 0 };
const spans = [
  item('span.x', 60, { kind: 'post', direction: X }, 'outside', (p) => 60 * p.x + 2 * p.growth),
  item('span.y', 60, { kind: 'post', direction: Y }, 'outside', (p) => 60 * p.y + 2 * p.growth),
  item('like.x', 50, { kind: 'step', direction: X, faces: like }, 'depth', (p) => 50 * p.x),
  item('like.y', 50, { kind: 'step', direction: Y, faces: like }, 'depth', (p) => 50 * p.y),
];
// Layers of 0.2 mm: every height is a whole number of them.
const heights = [
  ...[4, 8, 20].map((h) =>
    item(
      `height.${h}`,
      h,
      { kind: 'step', direction: Z, lowerFace: 0 },
      'outside',
      (p) => h * p.z + p.thicker,
    ),
  ),
  ...[3, 12].map((h) =>
    item(`step.${h}`, h, { kind: 'step', direction: Z, lowerFace: 2 }, 'depth', (p) => h * p.z),
  ),
];
const level = [4, 6].map((h) =>
  item(
    `level.${h}`,
    h,
    { kind: 'step', direction: Z, lowerFace: 2, roof: true },
    'inside',
    (p) => h * p.z - p.sag,
  ),
);
const feet = [10, 14].map((w) =>
  item(
    `foot.${w}`,
    w,
    { kind: 'post', direction: X, atBed: true },
    'outside',
    (p) => w * p.x + 2 * p.growth + 2 * p.spread,
  ),
);
const half = Math.SQRT1_2;
const diagonals = ([half, -half] as const).map((y, k) =>
  item(
    `diagonal.${k + 1}`,
    50,
    { kind: 'post', direction: [half, y, 0] },
    'outside',
    (p) => 50 * (0.5 * p.x + 0.5 * p.y + (k === 0 ? 0.5 : -0.5) * p.skew) + 2 * p.growth,
  ),
);

export const items: readonly Item[] = [
  ...bores,
  ...posts,
  ...slots,
  ...spans,
  ...heights,
  ...level,
  ...feet,
  ...diagonals,
];
export const features: readonly CouponFeature[] = items.map(({ feature }) => feature);

/** Draws without an end, uniform in [0, 1) and standard normal, the same for the same seed. */
export function draws(seed: number) {
  const generator = xoroshiro128plus(seed);
  const uniform = () => (generator.next() >>> 0) / 2 ** 32;
  // Seeds that are near numbers begin alike.
  for (let k = 0; k < 64; k++) uniform();
  const between = (low: number, high: number) => low + (high - low) * uniform();
  // Box and Muller.
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const sign = () => (uniform() < 0.5 ? -1 : 1);
  return { uniform, between, normal, sign, upTo: (n: number) => Math.floor(uniform() * n) };
}
export type Draws = ReturnType<typeof draws>;

/** A printer from the ranges that the project is built for. */
export const drawnPrinter = ({ between }: Draws): TruePrinter => ({
  x: between(0.994, 1.002),
  y: between(0.994, 1.002),
  z: between(0.999, 1.001),
  growth: between(-0.05, 0.15),
  shrink: between(0.02, 0.15),
  curvature: between(0, 0.25),
  spread: between(0, 0.3),
  thicker: between(-0.05, 0.05),
  sag: between(0, 0.3),
  skew: between(-0.003, 0.003),
  scatter: between(0.015, 0.04),
});

export const callipers: Callipers = { ...defaultCallipers, name: 'long pair' };

/** Readings of the coupon off a printer: scatter of the print, error of the callipers common to all, noise of the hand,
 *  steps of the display; the flat lands of the inside jaws stand in round bores as a chord. */
export function couponReadings(
  printer: TruePrinter,
  { between, normal }: Draws,
  { times = 1 }: { readonly times?: number } = {},
): Record<string, number[]> {
  // DIN 862 for 0.01 mm digital callipers up to 100 mm: 0.02 mm outside, 0.04 mm inside and depth, the rest of which
  // after the scale's own is the jaw's.
  const scale = between(-0.02, 0.02);
  const jaw = Math.sqrt(0.04 ** 2 - 0.02 ** 2);
  const error = { outside: scale, inside: scale + between(-jaw, jaw), depth: scale + between(-jaw, jaw) };
  const land = Math.max(0, 0.3 + 0.1 * normal());
  return Object.fromEntries(
    items.map(({ feature, printed }) => {
      const size = printed(printer) + printer.scatter * normal();
      const round = feature.kind === 'bore';
      const chord = round ? Math.sqrt(Math.max(0.01, size ** 2 - land ** 2)) : size;
      const read = () =>
        Math.round((chord + error[feature.reading.jaw as 'outside'] + 0.02 * normal()) * 100) / 100;
      return [feature.id, Array.from({ length: times }, read)];
    }),
  );
}

/** The true value of each parameter, in the names of the profile. */
export const truthOf = (p: TruePrinter): Readonly<Record<string, number>> => ({
  'scale.x': p.x,
  'scale.y': p.y,
  'scale.z': p.z,
  outerGrowth: p.growth,
  boreShrink: p.shrink,
  boreCurvature: p.curvature,
  firstLayerSpread: p.spread,
  firstLayerError: p.thicker,
  levelSag: p.sag,
  skew: p.skew,
});
