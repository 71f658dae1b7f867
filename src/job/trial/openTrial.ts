import { aimOf, windowOf } from '../../fit/classes.ts';
import type { FitProblem } from '../../fit/types.ts';
import { feltLadder } from '../feltLadder.ts';
import { idOf, membersOf } from '../members.ts';
import { plan } from '../plan.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { rungsHash } from './sights.ts';

/** The record of a print as the job would draw it now, before anything was read or felt of it. `date` is when it was first
 *  spoken of, YYYY-MM-DD; `made` the hash of the job as made. The print's sizes by interface, ids as in the result.
 *  Throws `Refused` as `plan` does. */
export function openTrial(prepared: Prepared, date: string, made: string): TrialRecord {
  const { printer, material, fits } = prepared;
  const sizes = membersOf(prepared).flatMap(({ member, prepared: own }) => {
    const { interfaces, problem } = plan(own);
    return interfaces.map((one) => {
      const { lo, hi } = windowOf(fits[one.id] ?? one.fit);
      const ladder = feltLadder(own, one.id);
      const size: TrialRecord['sizes'][string] = {
        drawn: rounded(one.drawn),
        predicted: rounded(one.predicted),
        clearance: rounded(one.clearance),
        window: [endOf(lo), endOf(hi)],
        aim: rounded(aimOf(fits[one.id] ?? one.fit)),
        doubt: doubtOf(problem, one.id),
        ...(ladder && { ladder: rungsHash(ladder.record) }),
      };
      return [idOf(member, one.id), size] as const;
    });
  });
  return {
    ...{ date, made, printer: printer.name, material: material.name, layer: printer.layer },
    sizes: Object.fromEntries(sizes),
  };
}

/** Whose doubt it is: the printer's, or that of the machine and of whoever read it. */
function doubtOf({ lines, contributors }: FitProblem, id: string): TrialRecord['sizes'][string]['doubt'] {
  const { sensitivity, spread } = lines.find((line) => line.id === id)!;
  const u = (whose: (cause: string) => boolean) =>
    rounded(
      Math.hypot(
        ...contributors
          .filter((cause) => whose(cause.id))
          .map((cause) => (sensitivity[cause.id] ?? 0) * cause.u),
      ),
    );
  const ofPrinter = (cause: string) => /^(printer|coupon|ladder):/.test(cause);
  return { printer: u(ofPrinter), machine: u((cause) => !ofPrinter(cause)), spread };
}

const endOf = (end: number): number | null => (Number.isFinite(end) ? end : null);

/** To a nanometre: far below what anything here is known to, and legible in a job file. */
const rounded = (size: number): number => Number(size.toFixed(6));
