import { readFileSync } from 'node:fs';
import { askedReadings, type Family } from '../../src/family/family.ts';
import { make } from '../../src/job/make.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { Refused } from '../../src/job/problem.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { ManifoldToplevel } from '../../src/solid/kernel.ts';
import { materialNames } from '../../src/standards/materials.ts';
import { parseLength } from '../../src/units/index.ts';
import { type PlainJob, read } from '../job/demo.ts';
import type { Randomness } from '../simulation/randomness.ts';

/** How a job is drawn. */
interface Drawing {
  /** Text of a length in mm as it is put into the job. */
  readonly text?: (mm: number) => string;
  /** A share of jobs without a known printer, 0 to 1. */
  readonly uncalibrated?: number;
  /** Always so many readings of each length; absent: one to four, as they scatter. */
  readonly times?: number;
}

/** The demo job of a family, as its folder has it. */
export const demoOf = ({ id }: Family): PlainJob =>
  JSON.parse(readFileSync(new URL(`../../parts/${id}/demo.job.json`, import.meta.url), 'utf8')) as PlainJob;

/** Hundredths of a millimetre, as callipers show them. */
const plain = (mm: number): string => mm.toFixed(2);

/** A job of any family, by nothing but its declaration and its demo: any choices, readings about those of the demo or about
 *  what is typical, so that many jobs agree with themselves. Entered masses stay as the demo has them. */
export function anyJob(random: Randomness, family: Family, drawing: Drawing = {}): PlainJob {
  const { text = plain, uncalibrated = 0.3, times } = drawing;
  const demo = demoOf(family);
  const choices = Object.fromEntries(
    Object.entries(family.choices).map(([id, { options }]) => [
      id,
      random.uniform(0, 1) < 0.5 ? (demo.choices[id] ?? options[0]!) : random.oneOf(options),
    ]),
  );
  const readings: PlainJob['readings'] = {};
  for (const [id, spec] of askedReadings(family, choices)) {
    if (spec.optional && random.uniform(0, 1) < 0.4) continue;
    const said = demo.readings[id] ?? [];
    if ((spec.quantity ?? 'length') !== 'length') {
      readings[id] = said.length > 0 ? [...said] : [String(spec.typical)];
      continue;
    }
    const known = said[0] === undefined ? undefined : parseLength(String(said[0]), demo.unit);
    const about = known?.ok ? known.mm : spec.typical;
    const middle = about * random.uniform(0.92, 1.08);
    const count = spec.jaw === 'entered' ? 1 : (times ?? random.oneOf([1, 2, 3, 4]));
    readings[id] = Array.from({ length: count }, () =>
      text(Math.min(spec.to - 0.15, Math.max(spec.from + 0.05, middle + random.normal(0.012)))),
    );
  }
  const job: PlainJob = {
    ...demo,
    choices,
    readings,
    sizes: {},
    fits: {},
    material: random.oneOf(materialNames),
  };
  if (random.uniform(0, 1) < uncalibrated) Reflect.deleteProperty(job, 'printer');
  return job;
}

/** The job understood, or null when it is refused. */
export function understood(job: unknown): Prepared | null {
  try {
    return read(job);
  } catch (error) {
    if (error instanceof Refused) return null;
    throw error;
  }
}

/** What comes of it, or null when it is refused. */
export function madeOf(kernel: ManifoldToplevel, prepared: Prepared): MakeResult | null {
  try {
    return make(kernel, prepared);
  } catch (error) {
    if (error instanceof Refused) return null;
    throw error;
  }
}

/** A job with what came of it. */
export interface Made {
  readonly family: Family;
  readonly job: PlainJob;
  readonly prepared: Prepared;
  readonly result: MakeResult;
}

/** Draws jobs until `count` of them could be made, visiting each; throws when too few can, for then nothing is tested. */
export function eachMade(
  kernel: ManifoldToplevel,
  family: Family,
  count: number,
  draw: () => PlainJob,
  visit: (made: Made, k: number) => void,
): void {
  let made = 0;
  for (let tried = 1; made < count; tried++) {
    if (tried > 12 * count + 20) throw new Error(`of ${tried} jobs only ${made} could be made`);
    const job = draw();
    const prepared = understood(job);
    const result = prepared && madeOf(kernel, prepared);
    if (prepared && result) visit({ family, job, prepared, result }, made++);
  }
}

/** Jobs a test makes of each family: FETTLE_RUNS says how many, or as many as the test takes by itself. */
export const runs = (usual: number): number => Number(process.env.FETTLE_RUNS ?? usual);

/** ms; nothing is timed here, but a run that hangs must end. */
export const PATIENCE = 120_000 + 30_000 * runs(0);
