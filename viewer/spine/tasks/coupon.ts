import { couponFiles, drawnCoupon } from '../../../src/job/coupon/couponFiles.ts';
import { toldCallipers } from '../../../src/job/coupon/toldCallipers.ts';
import { understandReadings } from '../../../src/job/coupon/understandReadings.ts';
import { fileBase } from '../../../src/job/fileBase.ts';
import { readingsKind } from '../../../src/job/readings/readingsKind.ts';
import type { Callipers } from '../../../src/measure/types.ts';
import { type CouponSheet, couponSheet } from '../../../src/output/couponForm/index.ts';
import { coupon } from '../../../src/printer/coupon/coupon.ts';
import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import type { PrintEstimate } from '../../../src/printer/coupon/printEstimate.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import { orRefused } from './refusals.ts';
import type { TakenFile } from './takeAway.ts';

/** What the sheet of a coupon shows and asks for. */
export interface CouponFacts {
  readonly sheet: CouponSheet;
  readonly features: readonly CouponFeature[];
  readonly print: PrintEstimate;
}

/** The coupon of a printer as the form that is typed into, its fields `field` mm in size. */
export const couponFacts = (
  kernel: ManifoldToplevel,
  printer: PrinterProfile,
  field: readonly [number, number],
): CouponFacts | RefusedJob =>
  orRefused(() => {
    const { mesh, features, print } = drawnCoupon(kernel, printer);
    // The law by which a feature prints is a function, which does not cross to the page; only the worker asks for it.
    const plain = features.map((feature) => {
      const { hydraulic: _, ...measurand } = feature.measurand;
      return { ...feature, measurand };
    });
    return { sheet: couponSheet(mesh, features, field), features: plain, print };
  });

const types = { stl: 'model/stl', png: 'image/png', html: 'text/html' } as const;

/** STL, picture and paper form of a printer's coupon, called as the command line calls them. */
export const couponTaken = (
  kernel: ManifoldToplevel,
  printer: PrinterProfile,
): readonly TakenFile[] | RefusedJob =>
  orRefused(() =>
    couponFiles(
      printer,
      drawnCoupon(kernel, printer),
      fileBase(printer.name, 'my'),
      'type them in on sheet 3, Print, of the page',
    ).map(({ kind, name, bytes }) => ({ name, type: types[kind], bytes })),
  );

/** Readings of a coupon as typed, by feature, and the callipers where the file says which. */
export interface FiledCoupon {
  readonly texts: Readonly<Record<string, readonly string[]>>;
  readonly callipers?: Callipers;
}

/** Readings of a coupon from a file, CSV or JSON, as texts by feature. Texts that are in another unit than `unit` say so. */
export async function couponReadingsIn(
  printer: PrinterProfile,
  name: string,
  text: string,
  unit: 'mm' | 'in',
): Promise<FiledCoupon | RefusedJob> {
  // Tables are read by a library that few ever need.
  const { parseReadings } = await import('../../../src/job/readings/parseReadings.ts');
  return orRefused(() => {
    const raw = parseReadings(text, readingsKind(name, text));
    const told = toldCallipers({}, raw);
    const readings = understandReadings(raw, coupon(printer).features, told.callipers, told.unit);
    const own = (given: string): string =>
      told.unit === unit || /[a-z"'″]/i.test(given) ? given : `${given} ${told.unit}`;
    const texts = Object.entries(readings).map(([id, all]): [string, string[]] => [
      id,
      all.map((each) => own(String(typeof each === 'number' ? each : each.text))),
    ]);
    return {
      texts: Object.fromEntries(texts),
      ...(raw.callipers !== undefined && { callipers: told.callipers }),
    };
  });
}
