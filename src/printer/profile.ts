import { z } from 'zod';
import { PARAMETERS } from './types.ts';

const known = (lowest: number, highest: number, greatestDoubt: number, unit: string, what: string) =>
  z
    .strictObject({
      value: z.number().min(lowest).max(highest),
      u: z.number().min(0).max(greatestDoubt),
    })
    .describe(`${what}, ${unit}, with its standard uncertainty u`);

const within = (lowest: number, highest: number, what: string) =>
  z.number().min(lowest).max(highest).describe(what);

const perParameter = z.array(z.number()).length(PARAMETERS.length);

const calibration = z
  .strictObject({
    covariance: z
      .array(perParameter)
      .length(PARAMETERS.length)
      .refine(isCovariance, 'a symmetric matrix without negative variances')
      .describe(`covariance of ${PARAMETERS.join(', ')}, shared causes left out`),
    shared: z
      .array(
        z.strictObject({
          id: z.string().regex(/^calliper:[A-Za-z]{1,40}$/, 'a cause such as calliper:scale'),
          label: z.string().min(1).max(200),
          shift: perParameter.describe('shift of each parameter per standard uncertainty of the cause'),
        }),
      )
      .max(20)
      .describe('what the callipers did to the coupon, to be set against what they do to the machine'),
    callipers: z
      .string()
      .trim()
      .min(1)
      .max(80)
      .describe('name of the callipers the coupon was measured with'),
    dof: z.number().min(1).max(1e6).describe('degrees of freedom of the repeatability'),
    readings: z
      .record(z.string().max(100), z.array(z.union([z.string().max(200), z.number()])).max(100))
      .describe('readings of the coupon as typed, by feature'),
  })
  .describe('what the measured coupon says of how the doubts hang together');

/** Symmetric to rounding, and every variance and every pair's correlation possible. */
function isCovariance(matrix: readonly (readonly number[])[]): boolean {
  return matrix.every((row, i) =>
    row.every((value, j) => {
      const most = Math.sqrt(matrix[i]![i]! * matrix[j]![j]!);
      return (
        matrix[i]![i]! >= 0 &&
        Math.abs(value - matrix[j]![i]!) <= 1e-9 * most &&
        Math.abs(value) <= most * (1 + 1e-9)
      );
    }),
  );
}

/** What a printer profile may hold. Strict: an unknown key is a misspelt one. The ranges are wide enough for any
 *  machine that extrudes filament, and narrow enough to catch per cent for factor and inch for millimetre; common
 *  practice, no source. Suits `z.toJSONSchema`. */
export const printerProfileSchema = z
  .strictObject({
    fettlePrinter: z.literal(2).describe('version of this schema'),
    name: z.string().trim().min(1).max(80).describe('what the owner calls the printer'),
    material: z
      .string()
      .trim()
      .min(1)
      .max(100)
      .nullable()
      .describe('material it is known for; null when nobody said'),
    calibrated: z.iso
      .date()
      .nullable()
      .describe('date of the coupon measured, YYYY-MM-DD; null before there is one'),
    bed: z
      .strictObject({
        x: within(20, 2000, 'mm'),
        y: within(20, 2000, 'mm'),
        z: within(20, 2000, 'mm'),
      })
      .describe('largest part it takes, by bed axis'),
    lineWidth: within(0.1, 2, 'width of an extruded line, mm'),
    layer: within(0.04, 1, 'layer height, mm'),
    firstLayer: within(0.04, 1, 'height of the first layer, mm'),
    scale: z
      .strictObject({
        x: known(0.9, 1.1, 0.05, '1', 'printed length over drawn length along x'),
        y: known(0.9, 1.1, 0.05, '1', 'printed length over drawn length along y'),
        z: known(0.9, 1.1, 0.05, '1', 'printed length over drawn length along z'),
      })
      .describe('printed length over drawn length, about 1'),
    outerGrowth: known(-0.5, 0.5, 0.5, 'mm a side', 'how much further out an outer face stands'),
    boreShrink: known(-0.5, 0.5, 0.5, 'mm a side', 'how much further in the wall of a bore or slot stands'),
    boreCurvature: known(-0.5, 2, 1, 'mm2', 'c in the term c / D by which small bores lose more'),
    firstLayerSpread: known(-0.2, 1, 0.5, 'mm a side', 'how much further the first layer spreads'),
    firstLayerError: known(-0.3, 0.3, 0.3, 'mm', 'how much thicker the first layer comes out'),
    levelSag: known(-0.5, 2, 1, 'mm', 'how much lower the roof of a level hollow hangs'),
    skew: known(-0.05, 0.05, 0.05, '1', 'tangent of the angle by which y leans towards x'),
    repeatability: within(0.001, 0.5, 'standard deviation of one size from print to print, mm'),
    overhang: within(20, 90, 'steepest overhang printed clean without support, degrees from the vertical'),
    bridge: within(0, 200, 'longest bridge printed clean, mm'),
    calibration: calibration.optional(),
  })
  .describe('how one printer prints one material');
