import { z } from 'zod';

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
