import { expect } from 'vitest';
import { askedReadings, type Family } from '../../src/family/family.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import type { ReportedInterface } from '../../src/job/result.ts';
import type { ManifoldToplevel } from '../../src/solid/kernel.ts';
import { type PlainJob, read } from '../job/demo.ts';
import { type Made, madeOf, understood } from './anyJob.ts';
import { expectSame } from './sameResult.ts';

/** 1/1280 in is 0.01984375 mm to the last digit, so both say the same length exactly. */
const STEPS_AN_INCH = 1280;
const STEP = 25.4 / STEPS_AN_INCH;

/** A length in mm as the nearest of those steps. */
export const inSteps = (mm: number): string => (Math.round(mm / STEP) * STEP).toFixed(8);

type Text = (mm: number) => string;
const inInches: Text = (mm) => (mm / 25.4).toFixed(8);
const asFraction: Text = (mm) => `${Math.round(mm / STEP)}/${STEPS_AN_INCH}"`;
const inThousandths: Text = (mm) => (mm / 25.4).toFixed(3);

/** The job with every length that callipers or a rule read written by `text`; its callipers stay what they are. */
function written(job: PlainJob, family: Family, unit: 'mm' | 'in', text: Text): PlainJob {
  const specs = new Map(askedReadings(family, job.choices));
  const readings = Object.entries(job.readings).map(([id, texts]) => {
    const length = (specs.get(id)?.quantity ?? 'length') === 'length';
    return [id, length ? texts.map((mm) => text(Number(mm))) : texts] as const;
  });
  const callipers = { scale: 'digital', resolution: '0.01 mm', zero: '0.01 mm' } as const;
  return { ...job, unit, callipers, readings: Object.fromEntries(readings) };
}

const remarksOf = ({ dimensions }: Prepared): string[] =>
  Object.values(dimensions).flatMap(({ id, remarks }) =>
    remarks.map(({ kind, index }) => `${id} ${kind} ${index ?? ''}`),
  );

const exactly =
  (unit: 'mm' | 'in', text: Text) =>
  (kernel: ManifoldToplevel, { family, job, prepared, result }: Made): void => {
    const other = read(written(job, family, unit, text));
    expect(remarksOf(other)).toEqual(remarksOf(prepared));
    expectSame(result, madeOf(kernel, other)!);
  };

/** The same lengths as decimals of an inch, and as fractions beside a job in mm. */
export const readInInches = exactly('in', inInches);
export const readInFractions = exactly('mm', asFraction);

/** What a dimension may be off where its readings are rounded to thousandths of an inch, mm; what inside jaws read of a round hole is put right by their
 *  lands, which lets a little more through. */
const MOST = 1.1 * 0.0127;

/** Callipers in thousandths of an inch show the same lengths to half a step. Dimensions follow by no more than that; what is
 *  drawn follows them, so that clearances stay where they are in their windows. */
export function readInThousandths(kernel: ManifoldToplevel, { family, job, prepared, result }: Made): void {
  const other = understood(written(job, family, 'in', inThousandths));
  // A reading next to the end of its range may leave it.
  const again = other && madeOf(kernel, other);
  if (!other || !again) return;
  for (const [id, { value, u }] of Object.entries(prepared.dimensions)) {
    expect(Math.abs(other.dimensions[id]!.value - value), id).toBeLessThan(MOST);
    expect(Math.abs(other.dimensions[id]!.u - u), id).toBeLessThan(MOST);
  }
  // Which reading stands out among its like may hang on how they are rounded; what is judged does not.
  const ids = (of: typeof result) =>
    of.findings.flatMap(({ id }) => (id.startsWith('reading') ? [] : [id.split('.').at(-1)!]));
  expect([...new Set(ids(again))].sort()).toEqual([...new Set(ids(result))].sort());
  for (const one of result.interfaces) {
    const its = again.interfaces.find(({ id }) => id === one.id)!;
    // Sizes upright come in whole layers, and the place in the window is missed by up to half of one.
    const upright = Math.abs(one.across[2]) > 0.5;
    expect(Math.abs(placeInWindow(its) - placeInWindow(one)), one.id).toBeLessThan(
      upright ? prepared.printer.layer + 2 * MOST : 1e-6,
    );
  }
}

function placeInWindow({ clearance, window: [lo, hi] }: ReportedInterface): number {
  if (Number.isFinite(lo) && Number.isFinite(hi)) return clearance - (lo + hi) / 2;
  return clearance - (Number.isFinite(lo) ? lo : hi);
}
