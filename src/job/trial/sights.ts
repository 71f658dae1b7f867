import type { Drawn } from '../../family/values.ts';
import type { CauseRow } from '../../fit/trialBelief.ts';
import type { Contributor, Dimension } from '../../measure/types.ts';
import { predictedSize } from '../../printer/behaviour.ts';
import {
  type CauseEffect,
  hostSensitivities,
  machineCauses,
  measurandOf,
  printCauses,
  senseOf,
} from '../clearanceCauses.ts';
import { feltCause, feltLadder } from '../feltLadder.ts';
import { canonical, sha256Hex } from '../hash.ts';
import type { Heights } from '../heights.ts';
import { printReadings, type ReadMeeting } from '../inspection/printReading.ts';
import { printSizes } from '../inspection/printSize.ts';
import { idOf, membersOf, nameOf } from '../members.ts';
import type { Prepared } from '../prepare.ts';
import type { LadderRecord } from '../schema.ts';
import type { FeltWord, TrialRecord } from '../trialSchema.ts';
import { causeRow } from './causeRow.ts';

/** What one trial saw, as lengths made of causes. */
export interface Sights {
  /** Sizes read of the print: how far off the expected, mm, counted as clearance. */
  readonly seen: readonly { readonly row: CauseRow; readonly value: number }[];
  /** Clearances felt: between which shifts from the expected they lie, mm. */
  readonly felt: readonly { readonly row: CauseRow; readonly within: readonly [number, number] }[];
  /** Causes that belong to this print alone. */
  readonly fresh: ReadonlySet<string>;
}

/** One interface of a record, with the clearance expected of the size that was drawn then and the causes of its doubt. */
export interface TriedMeeting extends ReadMeeting {
  /** Interface as it was drawn. */
  readonly size: TrialRecord['sizes'][string];
  /** Expected of the printer, mm, and the clearance that leaves on the machine as it was read. */
  readonly printed: number;
  readonly clearance: number;
  readonly print: readonly CauseEffect[];
  readonly machine: readonly CauseEffect[];
  /** The causes of the clearance: those of print and machine, or the ladder it rests on. */
  readonly causes: readonly CauseEffect[];
  /** Fingerprint of that ladder. */
  readonly ladder: string | undefined;
}

/** Fingerprint of the rungs of a ladder. */
export const rungsHash = ({ rungs }: LadderRecord): string => sha256Hex(canonical(rungs));

/** The interfaces of a record that the job still has, as this printer and these readings would expect them. */
export const triedMeetings = (
  prepared: Prepared,
  record: Pick<TrialRecord, 'sizes'>,
  heights: Heights,
): readonly TriedMeeting[] =>
  membersOf(prepared).flatMap(({ member, prepared: own }): TriedMeeting[] => {
    const { family, values, printer } = own;
    const drawn: Record<string, number> = {};
    for (const { id } of family.interfaces(values, {})) {
      const size = sizeOf(record, idOf(member, id));
      if (size) drawn[id] = size.drawn;
    }
    const lay = family.lay(values);
    const slopes = hostSensitivities(own);
    return family.interfaces(values, drawn as Drawn).flatMap((one): TriedMeeting[] => {
      const size = sizeOf(record, idOf(member, one.id));
      if (size === undefined) return [];
      const printed = predictedSize(size.drawn, measurandOf(one, lay, printer, heights), printer);
      const print = printCauses(one, printed, own);
      const machine = machineCauses(one, slopes(one.id), own);
      const ladder = feltLadder(own, one.id);
      return [
        {
          ...{ id: idOf(member, one.id), name: nameOf(member, one.name), one, part: { member } },
          ...{ size, printed: printed.value, print, machine },
          clearance: ladder ? ladder.at(size.drawn) : senseOf(one.kind) * (printed.value - one.host),
          causes: ladder ? [{ cause: feltCause(ladder), by: 1 }] : [...print, ...machine],
          ladder: ladder && rungsHash(ladder.record),
        },
      ];
    });
  });

const sizeOf = ({ sizes }: Pick<TrialRecord, 'sizes'>, id: string) =>
  Object.hasOwn(sizes, id) ? sizes[id] : undefined;

/** What a trial saw. The causes it is about, but for those of its own, go into `known`, printer before machine. */
export function sightsOf(
  prepared: Prepared,
  record: TrialRecord,
  heights: Heights,
  known: Map<string, Contributor>,
): Sights {
  const meetings = triedMeetings(prepared, record, heights);
  const readings = printReadings(meetings, record);
  const read = printSizes(prepared, record, readings, record.inspected?.readings ?? {});
  const after = printSizes(prepared, record, readings, record.inspected?.after ?? {});
  const reworked = new Set(record.reworked ?? []);
  const fresh = new Set<string>();
  const seen: Sights['seen'][number][] = [];
  const felt: Sights['felt'][number][] = [];

  const learnable = (effects: readonly CauseEffect[]): readonly CauseEffect[] => {
    for (const { cause, by } of effects)
      if (by !== 0 && cause.u > 0 && !known.has(cause.id)) known.set(cause.id, cause);
    return effects;
  };
  const ownOfPrint = (effects: readonly CauseEffect[]): readonly CauseEffect[] => {
    for (const { cause } of effects) fresh.add(cause.id);
    return effects;
  };
  /** What may be wrong with a size read of the print. Callipers err alike in all they read; the rest is of this reading. */
  const errorOf = ({ contributors }: Pick<Dimension, 'contributors'>, by: number, when: string) => {
    const shared = (id: string) => /^(print:)?calliper:/.test(id);
    return [
      ...learnable(contributors.filter(({ id }) => shared(id)).map((cause) => ({ cause, by }))),
      ...ownOfPrint(
        contributors
          .filter(({ id }) => !shared(id))
          .map((cause) => ({ cause: { ...cause, id: `${when}:${cause.id}` }, by })),
      ),
    ];
  };

  for (const meeting of meetings) {
    const { id, one, size, print, machine, causes, clearance, printed, ladder } = meeting;
    const sense = senseOf(one.kind);
    const scatter: CauseEffect = { cause: scatterOf(id, size.doubt.spread), by: 1 };
    const [before, filed] = [read[id], after[id]];
    if (before !== undefined) {
      // What was expected, the printer's error and the scatter make up the true size; so do the reading and its error.
      const off = [...learnable(print), ...ownOfPrint([scatter]), ...errorOf(before, -sense, 'printed')];
      seen.push({ row: causeRow(off), value: sense * (before.value - printed) });
    }
    const word = wordOf(record, id);
    // A ladder drawn after the print already rests on what was felt of it.
    if (word === undefined || ladder !== size.ladder) continue;
    if (filed !== undefined) {
      // What was tried is the size read after the file: only the machine and that reading are in doubt.
      const off = [...learnable(machine), ...errorOf(filed, sense, 'filed')];
      felt.push({ row: causeRow(off), within: between(word, size.window, sense * (filed.value - one.host)) });
    } else if (!reworked.has(id)) {
      const off = [...learnable(causes), ...ownOfPrint([scatter])];
      felt.push({ row: causeRow(off), within: between(word, size.window, clearance) });
    }
  }
  return { seen, felt, fresh };
}

const wordOf = ({ felt }: TrialRecord, id: string): FeltWord | undefined =>
  felt !== undefined && Object.hasOwn(felt, id) ? felt[id] : undefined;

const scatterOf = (id: string, u: number): Contributor => ({
  ...{ id: `spread:${id}`, label: 'printer, from print to print', u },
  ...({ distribution: 'normal', dof: Infinity } as const),
});

/** Between which shifts a clearance lies that was felt so, mm. What is said to lie beyond an end that the window has not
 *  lies anywhere. */
function between(
  word: FeltWord,
  [lo, hi]: TrialRecord['sizes'][string]['window'],
  expected: number,
): readonly [number, number] {
  const [low, high] = [(lo ?? -Infinity) - expected, (hi ?? Infinity) - expected];
  if (word === 'right') return [low, high];
  if (word === 'tight') return [-Infinity, lo === null ? Infinity : low];
  return [hi === null ? -Infinity : high, Infinity];
}
