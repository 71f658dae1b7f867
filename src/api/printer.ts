import { couponFiles, drawnCoupon } from '../job/coupon/couponFiles.ts';
import { couponObject } from '../job/coupon/couponObject.ts';
import { couponOf } from '../job/coupon/couponOf.ts';
import { soundCalibration } from '../job/coupon/soundCalibration.ts';
import { toldCallipers } from '../job/coupon/toldCallipers.ts';
import { understandReadings } from '../job/coupon/understandReadings.ts';
import { fileBase } from '../job/fileBase.ts';
import type { CouponObject } from '../job/formats/couponFormat.ts';
import { sha256Hex } from '../job/hash.ts';
import { parsePrinter } from '../job/parsePrinter.ts';
import type { JobFile } from '../job/schema.ts';
import type { CalibrationReport } from '../printer/calibration/types.ts';
import { defaultPrinter } from '../printer/defaultPrinter.ts';
import { profileText } from '../printer/profileText.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { dayOf } from './day.ts';
import { kernel } from './kernel.ts';
import { jsonOf } from './text.ts';

/** A printer profile from the text of its file, in today's form whatever version it was written in. Throws `Refused` with
 *  every problem found. */
export const readPrinter = (text: string): PrinterProfile => parsePrinter(jsonOf(text, ''));

/** A printer profile as the text of its file. */
export const printerText = (profile: PrinterProfile): string => profileText(profile);

/** The profile of a printer that nobody has measured: the middle of what such machines do, with doubt as wide as they differ.
 *  Lengths in mm. Throws `Refused` for what no profile may hold.
 *  @example newPrinter({ name: 'printer 1', bed: { x: 180, y: 180, z: 180 } }).calibrated // => null */
export const newPrinter = (
  told: Partial<
    Pick<PrinterProfile, 'name' | 'material' | 'bed' | 'lineWidth' | 'layer' | 'firstLayer'>
  > = {},
): PrinterProfile => parsePrinter({ ...defaultPrinter, ...told });

/** One file of a coupon, in memory. */
export interface CouponFile {
  readonly name: string;
  readonly kind: 'stl' | 'png' | 'html';
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** The small print that tells how a printer prints: its STL, a picture, and a form for the readings. `coupon` is what
 *  `fettle coupon --json` prints: features with what to read, mm. Throws `Refused` for a printer too small or too coarse. */
export async function coupon(
  printer: PrinterProfile,
  { name }: { readonly name?: string } = {},
): Promise<{ readonly coupon: CouponObject; readonly files: readonly CouponFile[] }> {
  const drawn = drawnCoupon(await kernel(), printer);
  const base = fileBase(name ?? printer.name, 'printer');
  const files = couponFiles(printer, drawn, base, 'calibrate the printer by these readings');
  return {
    files,
    coupon: couponObject({
      ...{ printer: printer.name, features: drawn.features, print: drawn.print },
      files: files.map(({ name: path, kind, bytes }) => ({
        ...{ path, kind, sha256: sha256Hex(bytes) },
        ...(kind === 'stl' && { triangles: drawn.mesh.triangles.length / 3 }),
      })),
    }),
  };
}

/** With what, and when, a coupon was read. */
export interface CalibrateOptions {
  /** As in a job; the same name there means the same pair, whose error then cancels. */
  readonly callipers?: NonNullable<JobFile['callipers']>;
  /** Of numbers without a unit; mm unless told. */
  readonly unit?: 'mm' | 'in';
  /** Day the coupon was printed, YYYY-MM-DD; today unless told. */
  readonly date?: string;
}

/** Fits the profile of a printer to readings of its coupon, as typed, by id or number of the feature. The report is what
 *  `fettle calibrate --json` prints, its `profile` the printer as it is now; what the readings do not tell keeps its doubt
 *  and says so. Throws `Refused` with every problem: unknown features, readings that are none or cannot be. */
export function calibrate(
  printer: PrinterProfile,
  readings: Readonly<Record<string, readonly (string | number)[]>>,
  { callipers, unit, date }: CalibrateOptions = {},
): CalibrationReport {
  const { features } = couponOf(printer);
  const told = toldCallipers({}, { callipers, unit });
  const raw = Object.entries(readings).map(([feature, texts]) => ({
    ...{ feature, texts },
    where: `readings.${feature}`,
  }));
  const understood = understandReadings({ readings: raw, once: true }, features, told.callipers, told.unit);
  return soundCalibration(printer, features, {
    ...{ readings: understood, callipers: told.callipers },
    date: dayOf(date),
  });
}
