import { fitChance } from '../../fit/chance.ts';
import type { FitLine, Window } from '../../fit/types.ts';
import type { Contributor, Dimension } from '../../measure/types.ts';
import { knownOf, withKnown } from '../../printer/parameters.ts';
import { PARAMETERS, type PrinterProfile } from '../../printer/types.ts';
import { fitWith } from '../plan.ts';
import type { Prepared } from '../prepare.ts';
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
}

/** What is solid is tight when it prints large. */
export const senseOf = ({ one: { kind } }: Meeting): 1 | -1 => (kind === 'post' || kind === 'rib' ? -1 : 1);

/** Clearances of prints that have been read, by interface: nothing but readings of machine and print counts, the printer
 *  has had its say. What an error of the callipers does to machine and print alike cancels (correlated inputs, JCGM
 *  100:2008, 5.2). Chances are conformance probabilities (JCGM 106:2012, 7.1: the share of the distribution of the
 *  measured quantity inside the tolerance interval), without prior knowledge of the print. */
export const printClearances = (
  meetings: readonly Meeting[],
  sizes: Readonly<Record<string, Dimension>>,
): Readonly<Record<string, PrintClearance>> => {
  const machine = machineDoubts(meetings);
  return Object.fromEntries(
    meetings.flatMap((meeting) => {
      const size = sizes[meeting.id];
      return size === undefined ? [] : [[meeting.id, printClearance(meeting, size, machine(meeting))]];
    }),
  );
};

/** Below this a spread is none; the reckoning of chances wants one above 0, mm. */
const LEAST_SPREAD = 1e-4;
/** Fewest degrees of freedom with which a spread has a standard deviation. */
const FEWEST_DOF = 3;

function printClearance(
  meeting: Meeting,
  size: Dimension,
  machine: readonly (readonly [Contributor, number])[],
): PrintClearance {
  const sense = senseOf(meeting);
  const value = sense * (size.value - meeting.one.host);
  // What only this reading of this print knows is the line's own; everything else is a cause by name.
  const own = size.contributors.find(({ id }) => id === `reading:${size.id}`);
  const causes = new Map<string, { cause: Contributor; effect: number }>();
  const add = (cause: Contributor, effect: number): void => {
    const there = causes.get(cause.id);
    causes.set(cause.id, { cause: there?.cause ?? cause, effect: (there?.effect ?? 0) + effect });
  };
  for (const [cause, effect] of machine) add(cause, effect);
  for (const cause of size.contributors) if (cause !== own) add(cause, sense * cause.u);
  const contributors = [...causes.values()].map(({ cause }): Contributor => ({ ...cause, u: 1 }));
  const sensitivity = Object.fromEntries([...causes].map(([id, { effect }]) => [id, effect]));
  const spread = Math.max(LEAST_SPREAD, own?.u ?? 0);
  const u = Math.hypot(spread, ...Object.values(sensitivity));
  const share = (window: Window): number => {
    const line: FitLine = {
      ...{ id: meeting.id, mean: value, window, sensitivity, spread },
      ...(own && own.dof !== Infinity && { spreadDof: Math.max(FEWEST_DOF, own.dof) }),
    };
    return fitChance({ lines: [line], contributors }).part;
  };
  const { lo, hi } = meeting.one.window;
  return {
    ...{ value, u },
    inside: share({ lo, hi }),
    below: lo === -Infinity ? 0 : share({ lo: -Infinity, hi: lo }),
    above: hi === Infinity ? 0 : share({ lo: hi, hi: Infinity }),
  };
}

type Doubts = readonly (readonly [Contributor, number])[];

/** What is doubtful about the machine at each meeting: causes with their effect on the clearance, mm. */
function machineDoubts(meetings: readonly Meeting[]): (meeting: Meeting) => Doubts {
  const problems = new Map<Meeting['planned'], ReturnType<typeof fitWith>>();
  for (const { part, planned } of meetings) {
    if (!problems.has(planned)) problems.set(planned, machineAlone(part.prepared, planned));
  }
  return ({ one, planned }) => {
    const { lines, contributors } = problems.get(planned)!;
    const { sensitivity } = lines.find(({ id }) => id === one.id)!;
    return contributors.flatMap((cause) => {
      const effect = (sensitivity[cause.id] ?? 0) * cause.u;
      return effect === 0 || cause.id.startsWith('printer:') ? [] : [[cause, effect] as const];
    });
  };
}

/** The fit with a printer that leaves nothing open, by itself: what was felt of it before says nothing of the machine's
 *  size. */
function machineAlone(prepared: Prepared, planned: Meeting['planned']) {
  const { ladders: _, trials: __, ...job } = prepared.job;
  return fitWith({ ...prepared, job }, planned, { printer: sure(prepared.printer) });
}

function sure({ calibration: _, ...profile }: PrinterProfile): PrinterProfile {
  return withKnown(
    profile,
    Object.fromEntries(
      PARAMETERS.map((parameter) => [parameter, { value: knownOf(profile, parameter).value, u: 0 }]),
    ),
  );
}
