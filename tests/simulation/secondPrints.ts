import { plan } from '../../src/job/plan.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import { openTrial } from '../../src/job/trial/openTrial.ts';
import type { FeltWord, TrialRecord } from '../../src/job/trialSchema.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { drawCallipers, type TrueCallipers, take, told } from './callipers.ts';
import { afterCoupon, bore, exactly, post, SLIDING, SNUG } from './firstPrints.ts';
import hinge from './hinge.ts';
import { type Randomness, randomness } from './randomness.ts';
import { drawPrinter, type TruePrinter } from './truePrinter.ts';

/** A bench where a first print is looked at before the second is drawn. */
export interface TrialBench {
  readonly calibrated: boolean;
  /** Whether the print is measured, tried on the machine, or both. */
  readonly inspects: boolean;
  readonly feels: boolean;
  /** Windows as wide as the usual ones times this, about the same middle. */
  readonly widths?: readonly [number, number];
}

/** Two prints of one part, the second drawn by what the first taught. */
export interface SecondPrint {
  /** Chance stated of each, 0..1, and whether it fitted. */
  readonly first: { readonly stated: number; readonly fitted: boolean };
  readonly second: { readonly stated: number; readonly fitted: boolean };
  /** Whether the second print would fit were printer and machine known exactly: its scatter alone decides. */
  readonly ceiling: boolean;
  /** How far the clearances of post and bore of the second came out from the expected ones, in their stated standard
   *  uncertainties. */
  readonly scores: readonly [number, number];
}

/** Scatter of what feels tight or loose about the ends of the window, mm. An assumption of this simulation. */
const FEELING = 0.01;
/** Readings taken of each size of the machine, and of the print, as sheet and inspection ask. */
const [MACHINE, PRINT] = [5, 3];

interface Clearances {
  readonly socket: number;
  readonly shaft: number;
}

/** Prints parts twice on printers that nobody knows but through a coupon, or not at all, each for a machine of its own. */
export function secondPrints(
  bench: TrialBench,
  { seed, printers }: { seed: number; printers: number },
): SecondPrint[] {
  const random = randomness(seed);
  return Array.from({ length: printers }, () => {
    const printer = drawPrinter(random);
    const callipers = drawCallipers(random);
    const profile = bench.calibrated ? afterCoupon(printer, callipers, random) : defaultPrinter;
    return twoPrints(bench, profile, printer, callipers, random);
  });
}

function twoPrints(
  { inspects, feels, widths: [narrow, wide] = [1, 1] }: TrialBench,
  profile: PrinterProfile,
  printer: TruePrinter,
  callipers: TrueCallipers,
  random: Randomness,
): SecondPrint {
  const socket = random.uniform(2, 12);
  const shaft = random.uniform(1.5, 10);
  const width = random.uniform(narrow, wide);
  const narrowed = ({ lo, hi }: { lo: number; hi: number }): [number, number] => {
    const [middle, half] = [(lo + hi) / 2, ((hi - lo) / 2) * width];
    return [middle - half, middle + half];
  };
  const windows = { socket: narrowed(SNUG), shaft: narrowed(SLIDING) };
  const job: JobFile = {
    fettle: 1,
    family: 'hinge',
    callipers: told,
    readings: {
      socket: take(MACHINE, socket, false, callipers, random),
      shaft: take(MACHINE, shaft, false, callipers, random),
    },
    fits: windows,
    printer: profile as JobFile['printer'],
  };
  const prepared = (trials: TrialRecord[]) =>
    readJob(JSON.stringify(trials.length > 0 ? { ...job, trials } : job), [hinge]);
  /** What comes off the printer, scatter and all, and how that sits on the machine. */
  const printed = (drawn: Readonly<Record<string, number>>) => {
    const sizes = {
      socket: exactly(printer, drawn.socket!, post) + random.normal(printer.repeatability),
      shaft: exactly(printer, drawn.shaft!, bore) + random.normal(printer.repeatability),
    };
    return { sizes, came: { socket: socket - sizes.socket, shaft: sizes.shaft - shaft } };
  };
  const inside = (id: keyof Clearances, clearance: number) =>
    clearance >= windows[id][0] && clearance <= windows[id][1];
  const fits = ({ socket: tight, shaft: loose }: Clearances) =>
    inside('socket', tight) && inside('shaft', loose);
  const wordFor = (id: keyof Clearances, clearance: number): FeltWord => {
    const felt = clearance + random.normal(FEELING);
    return felt < windows[id][0] ? 'tight' : felt > windows[id][1] ? 'loose' : 'right';
  };

  const before = prepared([]);
  const planned = plan(before);
  const first = printed(planned.drawn);
  const record: TrialRecord = {
    ...openTrial(before, '2026-11-26', '0'.repeat(64)),
    ...(inspects && {
      inspected: {
        readings: {
          socket: take(PRINT, first.sizes.socket, false, callipers, random),
          shaft: take(PRINT, first.sizes.shaft, true, callipers, random),
        },
      },
    }),
    ...(feels && {
      felt: { socket: wordFor('socket', first.came.socket), shaft: wordFor('shaft', first.came.shaft) },
    }),
  };
  const again = plan(prepared([record]));
  const second = printed(again.drawn);
  const best = { socket: random.normal(printer.repeatability), shaft: random.normal(printer.repeatability) };
  const middle = ([lo, hi]: readonly [number, number]) => (lo + hi) / 2;
  return {
    first: { stated: planned.chance.part, fitted: fits(first.came) },
    second: { stated: again.chance.part, fitted: fits(second.came) },
    ceiling: fits({
      socket: middle(windows.socket) + best.socket,
      shaft: middle(windows.shaft) + best.shaft,
    }),
    scores: (['socket', 'shaft'] as const).map((id, k) => {
      const one = again.interfaces[k]!;
      return (second.came[id] - one.clearance) / one.u;
    }) as [number, number],
  };
}
