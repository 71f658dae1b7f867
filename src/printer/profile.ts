import { z } from 'zod';
import type { Known, PrinterProfile } from './types.ts';

const known = (lowest: number, highest: number, greatestDoubt: number, unit: string, what: string) =>
  z
    .strictObject({
      value: z.number().min(lowest).max(highest),
      u: z.number().min(0).max(greatestDoubt),
    })
    .describe(`${what}, ${unit}, with its standard uncertainty u`);

const within = (lowest: number, highest: number, what: string) =>
  z.number().min(lowest).max(highest).describe(what);

/** What a printer profile may hold. Strict: an unknown key is a misspelt one. The ranges are wide enough for any
 *  machine that extrudes filament, and narrow enough to catch per cent for factor and inch for millimetre; common
 *  practice, no source. Suits `z.toJSONSchema`. */
export const printerProfileSchema = z
  .strictObject({
    fettlePrinter: z.literal(1).describe('version of this schema'),
    name: z.string().trim().min(1).max(80).describe('what the owner calls the printer'),
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
    repeatability: within(0.001, 0.5, 'standard deviation of one size from print to print, mm'),
    overhang: within(20, 90, 'steepest overhang printed clean without support, degrees from the vertical'),
    bridge: within(0, 200, 'longest bridge printed clean, mm'),
  })
  .describe('how one printer prints one material');

/** Middle of a range and the standard uncertainty of not knowing where in it (JCGM 100:2008, 4.3.7). */
function somewhereBetween(lowest: number, highest: number): Known {
  return { value: (lowest + highest) / 2, u: (highest - lowest) / 2 / Math.sqrt(3) };
}

/** A filament printer nobody has measured: middle of what such machines do, with doubt as wide as they differ.
 *  All ranges common practice, no source. */
export const defaultPrinter: PrinterProfile = {
  fettlePrinter: 1,
  name: 'uncalibrated printer',
  calibrated: null,
  bed: { x: 220, y: 220, z: 220 },
  lineWidth: 0.45,
  layer: 0.2,
  firstLayer: 0.2,
  scale: {
    x: somewhereBetween(0.994, 1.002),
    y: somewhereBetween(0.994, 1.002),
    z: somewhereBetween(0.999, 1.001),
  },
  outerGrowth: somewhereBetween(-0.05, 0.15),
  boreShrink: somewhereBetween(0.02, 0.15),
  boreCurvature: somewhereBetween(0, 0.25),
  firstLayerSpread: somewhereBetween(0, 0.3),
  repeatability: 0.0275,
  overhang: 50,
  bridge: 10,
};

/** Standard uncertainties a coupon measured with ordinary callipers typically leaves. An assumption of this project,
 *  used only to say what printing the coupon would be worth. */
const afterCoupon = {
  scale: 0.0005,
  outerGrowth: 0.01,
  boreShrink: 0.012,
  boreCurvature: 0.02,
  firstLayerSpread: 0.03,
} as const;

/** The same printer as well known as a typical coupon would make it: same values, smaller uncertainties, none made
 *  worse. For advice only: `calibrated` stays as it is, for nothing has been measured.
 *  @example calibratedLike(defaultPrinter).outerGrowth // => { value: 0.05, u: 0.01 } */
export function calibratedLike(profile: PrinterProfile): PrinterProfile {
  const atMost = ({ value, u }: Known, limit: number): Known => ({ value, u: Math.min(u, limit) });
  return {
    ...profile,
    scale: {
      x: atMost(profile.scale.x, afterCoupon.scale),
      y: atMost(profile.scale.y, afterCoupon.scale),
      z: atMost(profile.scale.z, afterCoupon.scale),
    },
    outerGrowth: atMost(profile.outerGrowth, afterCoupon.outerGrowth),
    boreShrink: atMost(profile.boreShrink, afterCoupon.boreShrink),
    boreCurvature: atMost(profile.boreCurvature, afterCoupon.boreCurvature),
    firstLayerSpread: atMost(profile.firstLayerSpread, afterCoupon.firstLayerSpread),
  };
}
