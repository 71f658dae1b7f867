import { fitChance } from '../../fit/chance.ts';
import { REPEATABILITY } from '../../fit/shares.ts';
import type { FitLine, Share, Window } from '../../fit/types.ts';
import type { Contributor, Dimension } from '../../measure/types.ts';
import { type CauseEffect, hostSensitivities, machineCauses, senseOf } from '../clearanceCauses.ts';
import type { Meeting } from './meetings.ts';

/** The clearance of one print that has been read: how far apart it and the machine are. */
export interface PrintClearance {
  /** Machine less print for what is solid, print less machine for what is hollow and for steps, mm; above 0 is loose. */
  readonly value: number;
  readonly u: number;
  /** Chance that it lies inside its window, and on either side, 0..1. */
  readonly inside: number;
  readonly below: number;
  readonly above: number;
  /** What the doubt about it comes from, largest share first. */
  readonly shares: readonly Share[];
}

/** Clearances of prints that have been read, by interface: nothing but readings of machine and print counts, the printer
 *  has had its say. What an error of the callipers does to machine and print alike cancels (correlated inputs, JCGM
 *  100:2008, 5.2). Chances are conformance probabilities (JCGM 106:2012, 7.1: the share of the distribution of the
 *  measured quantity inside the tolerance interval), without prior knowledge of the print. */
export const printClearances = (
  meetings: readonly Meeting[],
  sizes: Readonly<Record<string, Dimension>>,
): Readonly<Record<string, PrintClearance>> => {
  const slopesOf = new Map(
    [...new Set(meetings.map(({ part }) => part))].map((part) => [part, hostSensitivities(part.prepared)]),
  );
  return Object.fromEntries(
    meetings.flatMap((meeting) => {
      const size = sizes[meeting.id];
      if (size === undefined) return [];
      const { one, part } = meeting;
      const machine = machineCauses(one, slopesOf.get(part)!(one.id), part.prepared);
      return [[meeting.id, printClearance(meeting, size, machine)]];
    }),
  );
};

/** Below this a spread is none; the reckoning of chances wants one above 0, mm. */
const LEAST_SPREAD = 1e-4;
/** Fewest degrees of freedom with which a spread has a standard deviation. */
const FEWEST_DOF = 3;

function printClearance(meeting: Meeting, size: Dimension, machine: readonly CauseEffect[]): PrintClearance {
  const sense = senseOf(meeting.one.kind);
  const value = sense * (size.value - meeting.one.host);
  // What only this reading of this print knows is the line's own; everything else is a cause by name.
  const own = size.contributors.find(({ id }) => id === `reading:${size.id}`);
  const causes = new Map<string, { cause: Contributor; effect: number }>();
  const add = (cause: Contributor, effect: number): void => {
    const there = causes.get(cause.id);
    causes.set(cause.id, { cause: there?.cause ?? cause, effect: (there?.effect ?? 0) + effect });
  };
  for (const { cause, by } of machine) add(cause, by * cause.u);
  for (const cause of size.contributors) if (cause !== own) add(cause, sense * cause.u);
  const contributors = [...causes.values()].map(({ cause }): Contributor => ({ ...cause, u: 1 }));
  const sensitivity = Object.fromEntries([...causes].map(([id, { effect }]) => [id, effect]));
  const spread = Math.max(LEAST_SPREAD, own?.u ?? 0);
  const u = Math.hypot(spread, ...Object.values(sensitivity));
  const chanceIn = (window: Window) => {
    const line: FitLine = {
      ...{ id: meeting.id, mean: value, window, sensitivity, spread },
      ...(own && own.dof !== Infinity && { spreadDof: Math.max(FEWEST_DOF, own.dof) }),
    };
    return fitChance({ lines: [line], contributors });
  };
  const { lo, hi } = meeting.one.window;
  const within = chanceIn({ lo, hi });
  // The line's own spread is what readings of the print scatter by.
  const shares = within.partShares.map((each) =>
    own !== undefined && each.id === REPEATABILITY.id
      ? { ...each, id: own.id, label: `${own.label} of the print` }
      : each,
  );
  return {
    ...{ value, u, shares },
    inside: within.part,
    below: lo === -Infinity ? 0 : chanceIn({ lo: -Infinity, hi: lo }).part,
    above: hi === Infinity ? 0 : chanceIn({ lo: hi, hi: Infinity }).part,
  };
}
