import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { PrintEstimate } from '../../printer/coupon/printEstimate.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { type Looks, wrapped } from '../terminal.ts';

interface Told {
  readonly printer: PrinterProfile;
  readonly features: readonly CouponFeature[];
  readonly print: PrintEstimate;
  /** The command that takes the readings. */
  readonly next: string;
  readonly files: readonly string[];
}

/** The coupon for a person, line by line: what it is, what it costs, how to print it, what comes next. */
export function couponText(
  { printer, features, print, next, files }: Told,
  { paint, width }: Looks,
): readonly string[] {
  const readings = features.reduce((sum, { times }) => sum + times, 0);
  const rows: readonly (readonly [string, string])[] = [
    ['shows', `${features.length} sizes, ${readings} readings, some ten minutes with the callipers`],
    ['takes', `${print.mass.toFixed(1)} g and about ${print.minutes} min (${print.method})`],
    [
      'print it',
      `as you print parts, layers of ${printer.layer} mm on a first one of ${printer.firstLayer} mm, lines of ${printer.lineWidth} mm; no brim, no support, 100 %, not turned`,
    ],
    ['then', 'let it cool on the bed and lie for an hour, measure it as the form says'],
  ];
  const lead = (word: string): string => `  ${word.padEnd(10)}`;
  return [
    `${paint.bold('Coupon')} - ${printer.name}${printer.material === null ? '' : `, ${printer.material}`}`,
    ...rows.flatMap(([word, text]) =>
      wrapped(text, width - lead('').length).map((line, k) => lead(k === 0 ? word : '') + line),
    ),
    ...files.map((path) => `  wrote ${path}`),
    `next: ${next}    asks for the readings one by one`,
  ];
}
