// The public surface of the package, for Node and browsers: what is not on this list is internal and may change. Lengths in mm,
// chances 0 to 1. No function here reads or writes a file, or changes what it is given; what they remember from call to call
// saves time and changes no result. What is wrong with what was given comes as `Refused` with every problem as data;
// anything else that is thrown is a fault of Fettle's own.
export type { LengthUnit } from '../donor/types.ts';
export type { DonorObject } from '../job/donorObject.ts';
export type { CouponObject } from '../job/formats/couponFormat.ts';
export type { FormatName } from '../job/formats/names.ts';
export type { PlateObject } from '../job/formats/plateFormat.ts';
export type { MadeFile, MadeKind } from '../job/madeFile.ts';
export { type Problem, Refused, sentence } from '../job/problem.ts';
export type { ResultFile } from '../job/resultSchema.ts';
export type { JobFile } from '../job/schema.ts';
export { FETTLE_VERSION as version } from '../job/version.ts';
export type { CalibrationReport } from '../printer/calibration/types.ts';
export type { PrinterProfile } from '../printer/types.ts';
export { type BundleOptions, type OpenedBundle, openBundle, packBundle } from './bundle.ts';
export { donor } from './donor.ts';
export { type FamilyInfo, jobText, listFamilies, newJob, type ReadingInfo } from './families.ts';
export { jsonSchema, listFormats } from './formats.ts';
export { type InspectedPrint, type InspectedSize, inspect, type PrintOptions } from './inspect.ts';
export {
  type DrawnLadder,
  type FeltLadder,
  feltLadder,
  type LadderOptions,
  type LadderRung,
  ladder,
} from './ladder.ts';
export { locateWasm } from './locateWasm.ts';
export { check, type MakeOptions, make } from './makeJob.ts';
export type { Beside, OpenJob } from './openedJob.ts';
export { openJob } from './openJob.ts';
export { type PlateFile, plate } from './plate.ts';
export {
  type CalibrateOptions,
  type CouponFile,
  calibrate,
  coupon,
  newPrinter,
  printerText,
  readPrinter,
} from './printer.ts';
export { sheet } from './sheet.ts';
export { type PrintFelt, recordTrial, type TrialTaught } from './trial.ts';
