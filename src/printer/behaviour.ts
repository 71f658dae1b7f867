import type { Contributor } from '../measure/types.ts';
import { lengthOf } from '../solid/vector.ts';
import { layersBelow, topOfLayer } from './layers.ts';
import { growingFaces, isVertical, type Measurand } from './measurand.ts';
import { parameterLabel } from './parameterLabel.ts';
import { SizeRefusal } from './sizeRefusal.ts';
import { stairs } from './stairs.ts';
import type { Known, Parameter, PrinterProfile } from './types.ts';

export type { Measurand };

/** A size as it will come off the printer. */
export interface PredictedSize {
  /** mm */
  readonly value: number;
  /** Change of the size per unit of each contributor's error, by contributor id; only those with an effect. */
  readonly sensitivity: Readonly<Record<string, number>>;
  /** Causes of doubt that the profile brings, in the order of `sensitivity`. Repeatability is not among them: it belongs
   *  to each print of each size alone. */
  readonly contributors: readonly Contributor[];
}

/** Size that comes off the printer when `drawn` mm are drawn, and how it hangs on what is known of the printer.
 *
 *  In the plane of the bed: drawn * scale + outer * outerGrowth + inner * boreShrink - boreCurvature / D, the last for
 *  bores and slots, D their hydraulic diameter as drawn. The faces shift level with the bed, so that along a
 *  tilted direction only its level part counts; scales combine by the squares of the direction cosines and skew by
 *  their product, as small strains do. At the first layer every growing face spreads by firstLayerSpread besides;
 *  a round that lies level is as wide as its widest layer.
 *  Within 45 degrees of the vertical: whole layers times scale.z, plus firstLayerError from the bed, less levelSag
 *  under a roof, plus levelSag over an underside that hangs, and no growth. Linear in every parameter, so that
 *  `sensitivity` holds at any distance.
 *  A value of 0 or below means that the opening closes or the height vanishes.
 *  With an uncalibrated profile its doubts are rectangular, otherwise normal.
 *  Throws `SizeRefusal`: `size_out_of_range` unless drawn is above 0 and finite, `direction_not_unit`.
 *  @example a 5 mm post along x, scale 0.998, growth 0.05 a side // => value: 5.09 */
export function predictedSize(drawn: number, measurand: Measurand, profile: PrinterProfile): PredictedSize {
  if (!(drawn > 0 && drawn < Infinity))
    throw new SizeRefusal('size_out_of_range', 'drawn size', 'a finite size above 0 mm', drawn);
  checkDirection(measurand);
  if (isVertical(measurand)) return predictedHeight(drawn, measurand, profile);

  const { cosines, scale, growth } = flat(measurand, profile);
  const faces = growingFaces(measurand);
  const level = levelPart(measurand);
  const diameter = hydraulicDiameter(measurand)?.(drawn);
  const curvature = diameter === undefined ? 0 : -level / diameter;
  const spread = spreading(measurand);
  const width = drawn - lossToStairs(measurand, profile);
  const causes: [Cause, Known, number][] = [
    ['scale.x', profile.scale.x, width * cosines[0]],
    ['scale.y', profile.scale.y, width * cosines[1]],
    ['scale.z', profile.scale.z, width * cosines[2]],
    ['outerGrowth', profile.outerGrowth, faces.outer * level],
    ['boreShrink', profile.boreShrink, faces.inner * level],
    ['boreCurvature', profile.boreCurvature, curvature],
    ['firstLayerSpread', profile.firstLayerSpread, spread],
    ['skew', profile.skew, width * measurand.direction[0] * measurand.direction[1]],
  ];
  return {
    value: width * scale + growth + curvature * profile.boreCurvature.value,
    ...doubts(causes, profile),
  };
}

function predictedHeight(drawn: number, measurand: Measurand, profile: PrinterProfile): PredictedSize {
  const { lowerFace = 0, below: floor = 0 } = measurand;
  const below = layersBelow(lowerFace, profile);
  const top = topOfLayer(layersBelow(lowerFace + drawn - floor, profile), profile) + floor;
  const height = top - topOfLayer(below, profile);
  // A step from who knows what height: both its ends come to the nearest layer, each by up to half a layer, and the
  // two roundings together spread over a triangle one layer either way (JCGM 100:2008, 4.3.9).
  const rounded = measurand.kind === 'step' && measurand.lowerFace === undefined;
  const rounding: Known = { value: 0, u: profile.layer / Math.sqrt(6) };
  // Both faces of a size above the first layer shift together.
  const onBed = below === 0 && height > 0 ? 1 : 0;
  const hanging = sinking(measurand, below);
  return {
    value:
      height * profile.scale.z.value +
      onBed * profile.firstLayerError.value +
      hanging * profile.levelSag.value,
    ...doubts(
      [
        ['scale.z', profile.scale.z, height],
        ['firstLayerError', profile.firstLayerError, onBed],
        ['levelSag', profile.levelSag, hanging],
        ['layerRounding', rounding, rounded ? 1 : 0],
      ],
      profile,
    ),
  };
}

/** Size to draw so that `printed` mm come off the printer: the inverse of `predictedSize`.
 *
 *  In the plane of the bed it is exact, to rounding. Along z it is the whole number of layers that comes nearest, at least
 *  one, with the upper face on the boundary of a layer: half a layer away from printing one more or one less.
 *  Throws `SizeRefusal`: `size_out_of_range` unless printed is above 0 and finite, `size_not_reachable` when no drawn
 *  size above 0 comes out so, `direction_not_unit`.
 *  @example a 5.09 mm post along x, scale 0.998, growth 0.05 a side // => 5 */
export function drawnSize(printed: number, measurand: Measurand, profile: PrinterProfile): number {
  if (!(printed > 0 && printed < Infinity))
    throw new SizeRefusal('size_out_of_range', 'printed size', 'a finite size above 0 mm', printed);
  checkDirection(measurand);
  if (isVertical(measurand)) return drawnHeight(printed, measurand, profile);

  const { scale, growth } = flat(measurand, profile);
  const loss = lossToStairs(measurand, profile);
  const straight = (printed - growth) / scale + loss;
  const hydraulic = hydraulicDiameter(measurand);
  const c = profile.boreCurvature.value * levelPart(measurand);
  if (hydraulic === undefined || c === 0) {
    if (straight > 0) return straight;
    throw new SizeRefusal('size_not_reachable', measurand.kind, `a printed size above ${growth} mm`, printed);
  }
  // A bore that widens when small (c < 0) has two solutions; the larger is the one that grows with what is drawn.
  const size = (drawn: number) => (drawn - loss) * scale + growth - c / hydraulic(drawn) - printed;
  const drawn = rootFromAbove(size, Math.max(straight, 0));
  if (drawn === null)
    throw new SizeRefusal(
      'size_not_reachable',
      measurand.kind,
      'a printed size that some drawn size gives',
      printed,
    );
  return drawn;
}

function drawnHeight(printed: number, measurand: Measurand, profile: PrinterProfile): number {
  const { kind, lowerFace = 0, below: floor = 0 } = measurand;
  const below = layersBelow(lowerFace, profile);
  const base = topOfLayer(below, profile);
  const shift =
    sinking(measurand, below) * profile.levelSag.value + (below === 0 ? profile.firstLayerError.value : 0);
  const top = base + (printed - shift) / profile.scale.z.value - floor;
  const count = layersBelow(top, profile);
  const drawn = topOfLayer(count, profile) + floor - lowerFace;
  if (count > below && drawn > 0) return drawn;
  const layer = topOfLayer(below + 1, profile) - base;
  throw new SizeRefusal(
    'size_not_reachable',
    kind,
    `a printed height above half a layer of ${layer} mm`,
    printed,
  );
}

/** By how many of its faces, net, a height grows when what hangs sinks; `below` layers lie under its lower face. */
function sinking({ roof, underside }: Measurand, below: number): number {
  return (underside && below > 0 ? 1 : 0) - (roof ? 1 : 0);
}

/** Largest root of a function that ends up rising, found from above by bisection to the last bit; null if there is none
 *  above 0. `near` is where it would be without the term that bends it. */
function rootFromAbove(f: (x: number) => number, near: number): number | null {
  let high = Math.max(near, 0.01);
  while (f(high) < 0) high *= 2;
  // Down in small steps to the first place below the root, or to where nothing could be drawn.
  let low = high;
  while (f(low) >= 0) {
    high = low;
    low *= 0.98;
    if (low < 1e-9) return null;
  }
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return high;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
}

type Cause = Parameter | 'layerRounding';

const labelOf = (cause: Cause): string =>
  cause === 'layerRounding' ? 'printer, heights in whole layers' : parameterLabel[cause];

function doubts(causes: readonly (readonly [Cause, Known, number])[], profile: PrinterProfile) {
  const telling = causes.filter(([, , effect]) => effect !== 0);
  return {
    sensitivity: Object.fromEntries(telling.map(([cause, , effect]) => [`printer:${cause}`, effect])),
    contributors: telling.map(
      ([cause, { u }]): Contributor => ({
        id: `printer:${cause}`,
        label: labelOf(cause),
        u,
        distribution: profile.calibrated === null ? 'rectangular' : 'normal',
        dof: Infinity,
      }),
    ),
  };
}

/** Scale along a direction and the total growth of the faces, mm. */
function flat(measurand: Measurand, profile: PrinterProfile) {
  const [x, y, z] = measurand.direction;
  const cosines = [x * x, y * y, z * z] as const;
  const { outer, inner } = growingFaces(measurand);
  const scale =
    cosines[0] * profile.scale.x.value +
    cosines[1] * profile.scale.y.value +
    cosines[2] * profile.scale.z.value +
    x * y * profile.skew.value;
  const growth =
    (outer * profile.outerGrowth.value + inner * profile.boreShrink.value) * levelPart(measurand) +
    spreading(measurand) * profile.firstLayerSpread.value;
  return { cosines, scale, growth };
}

/** Faces that the spread of the first layer adds to a size, level with the bed. */
function spreading(measurand: Measurand): number {
  if (!measurand.atBed) return 0;
  const { outer, inner } = growingFaces(measurand);
  return (outer + inner) * levelPart(measurand);
}

const levelPart = ({ direction: [x, y] }: Measurand): number => Math.hypot(x, y);

const lossToStairs = ({ lying }: Measurand, profile: PrinterProfile): number =>
  lying === undefined ? 0 : stairs(lying, profile);

function hydraulicDiameter({ kind, hydraulic }: Measurand): ((drawn: number) => number) | undefined {
  if (kind !== 'bore' && kind !== 'slot') return undefined;
  return hydraulic ?? (kind === 'bore' ? (drawn) => drawn : (drawn) => 2 * drawn);
}

function checkDirection({ direction }: Measurand): void {
  if (!(Math.abs(lengthOf(direction) - 1) < 1e-6))
    throw new SizeRefusal(
      'direction_not_unit',
      'direction',
      'a vector of length 1',
      NaN,
      `[${direction.join(', ')}]`,
    );
}
