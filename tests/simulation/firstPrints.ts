import { plan } from '../../src/job/plan.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { defaultCallipers } from '../../src/measure/callipers.ts';
import { calibrate } from '../../src/printer/calibration/calibrate.ts';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import type { Measurand } from '../../src/printer/measurand.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import {
  drawCallipers,
  HAND,
  LAND_WIDTH,
  PERMISSIBLE_ERROR,
  type TrueCallipers,
  take,
  told,
} from './callipers.ts';
import hinge from './hinge.ts';
import { type Randomness, randomness } from './randomness.ts';
import { drawPrinter, print, type TruePrinter } from './truePrinter.ts';

/** One first print, with what was said of it and what became of it. */
export interface FirstPrint {
  /** Stated chance, 0..1, and whether it fitted. */
  readonly stated: number;
  readonly fitted: boolean;
  /** Whether the same part, on the same machine and printer, fits when the mean reading is drawn as it is, and when one
   *  allowance is taken off every post and added to every bore; by allowance. */
  readonly straight: boolean;
  readonly allowed: readonly boolean[];
  /** The same of post and bore alone. */
  readonly lines: readonly { readonly stated: number; readonly fitted: boolean }[];
  /** How far the clearances of post and bore came out from the expected ones, in their stated standard uncertainties. */
  readonly scores: readonly [number, number];
}

/** What a bench is like. */
export interface Bench {
  readonly calibrated: boolean;
  /** Readings taken of each size of the machine; absent: as the sheet asks. */
  readonly readings?: readonly number[];
  /** Windows as wide as the usual ones times this, about the same middle. */
  readonly widths?: readonly [number, number];
}

/** Allowances for everything that people use, diametral, mm; common practice, no source. */
export const ALLOWANCES = [0.1, 0.2, 0.3, 0.4] as const;

export const SNUG = { lo: 0, hi: 0.15 };
export const SLIDING = { lo: 0.1, hi: 0.3 };
const across = { x: [1, 0, 0], y: [0, 1, 0] } as const;
export const post: Measurand = { kind: 'post', direction: [...across.x] };
export const bore: Measurand = { kind: 'bore', direction: [...across.y] };

const callipersOfTheBench = {
  ...defaultCallipers,
  name: told.name,
  permissibleError: PERMISSIBLE_ERROR,
  landWidth: LAND_WIDTH,
  landWidthUncertainty: 0.02,
  repeatability: HAND,
};

/** Prints parts on many printers that nobody knows but through a coupon. Each printer, with callipers of its own, makes
 *  `partsEach` parts for machines of random size. */
export function firstPrints(
  bench: Bench,
  { seed, printers, partsEach }: { seed: number; printers: number; partsEach: number },
): FirstPrint[] {
  const random = randomness(seed);
  return Array.from({ length: printers }).flatMap(() => {
    const printer = drawPrinter(random);
    const callipers = drawCallipers(random);
    const profile = bench.calibrated ? afterCoupon(printer, callipers, random) : defaultPrinter;
    return Array.from({ length: partsEach }, () => firstPrint(bench, profile, printer, callipers, random));
  });
}

export function afterCoupon(
  printer: TruePrinter,
  callipers: TrueCallipers,
  random: Randomness,
): PrinterProfile {
  const { features } = coupon(defaultPrinter);
  const readings = Object.fromEntries(
    features.map(({ id, nominal, measurand, reading, times }) => [
      id,
      take(times, print(printer, nominal, measurand, random), reading.round ?? false, callipers, random),
    ]),
  );
  return calibrate(defaultPrinter, features, readings, callipersOfTheBench, '2026-01-31').profile;
}

function firstPrint(
  { readings = [5], widths: [narrow, wide] = [1, 1] }: Bench,
  profile: PrinterProfile,
  printer: TruePrinter,
  callipers: TrueCallipers,
  random: Randomness,
): FirstPrint {
  const socket = random.uniform(2, 12);
  const shaft = random.uniform(1.5, 10);
  const times = random.oneOf(readings);
  const width = random.uniform(narrow, wide);
  const window = ({ lo, hi }: { lo: number; hi: number }): [number, number] => {
    const [middle, half] = [(lo + hi) / 2, ((hi - lo) / 2) * width];
    return [middle - half, middle + half];
  };
  const [snug, sliding] = [window(SNUG), window(SLIDING)];
  const read = {
    socket: take(times, socket, false, callipers, random),
    shaft: take(times, shaft, false, callipers, random),
  };
  const job: JobFile = {
    fettle: 1,
    family: 'hinge',
    callipers: told,
    readings: read,
    fits: { socket: snug, shaft: sliding },
    printer: profile as JobFile['printer'],
  };
  const { drawn, chance, interfaces } = plan(readJob(JSON.stringify(job), [hinge]));

  const scatter = {
    post: random.normal(printer.repeatability),
    bore: random.normal(printer.repeatability),
  };
  /** Clearances of a part drawn so; the print scatters alike however it was drawn. */
  const clearances = (drawnPost: number, drawnBore: number): [number, number] => [
    socket - exactly(printer, drawnPost, post) - scatter.post,
    exactly(printer, drawnBore, bore) + scatter.bore - shaft,
  ];
  const fits = (drawnPost: number, drawnBore: number): boolean => {
    const [tight, loose] = clearances(drawnPost, drawnBore);
    return tight >= snug[0] && tight <= snug[1] && loose >= sliding[0] && loose <= sliding[1];
  };
  const came = clearances(drawn.socket!, drawn.shaft!);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [readPost, readBore] = [mean(read.socket), mean(read.shaft)];
  return {
    stated: chance.part,
    fitted: fits(drawn.socket!, drawn.shaft!),
    straight: fits(readPost, readBore),
    allowed: ALLOWANCES.map((allowance) => fits(readPost - allowance, readBore + allowance)),
    lines: [snug, sliding].map(([lo, hi], k) => ({
      stated: interfaces[k]!.chance,
      fitted: came[k]! >= lo && came[k]! <= hi,
    })),
    scores: [0, 1].map((k) => (came[k]! - interfaces[k]!.clearance) / interfaces[k]!.u) as [number, number],
  };
}

const still: Randomness = { uniform: (lowest) => lowest, normal: () => 0, oneOf: ([first]) => first! };

/** What the printer makes of it without scatter. */
export const exactly = (printer: TruePrinter, drawn: number, measurand: Measurand): number =>
  print(printer, drawn, measurand, still);
