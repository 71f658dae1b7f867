import type { InterfaceKind } from '../../family/interface.ts';
import { correctedReading } from '../../measure/correctedReading.ts';
import { unitOf } from '../../measure/index.ts';
import type { Callipers } from '../../measure/types.ts';
import type { ReadingFacts } from '../jobFacts.ts';
import { idOf } from '../members.ts';
import type { Prepared } from '../prepare.ts';
import { dimensionRead, valueTyped } from '../takenReading.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { type CurrentTrial, currentTrial, type WhichPrint } from './currentTrial.ts';
import { type InspectedSize, type InspectionVerdict, inspect } from './inspection.ts';
import { driftText, todoFor, whyOf } from './inspectionWords.ts';
import { type Meeting, meetingsOf } from './meetings.ts';
import { type NextAfterInspection, nextAfterInspection } from './nextAfterInspection.ts';
import { type PlaceGroup, placeGroups } from './placeGroups.ts';
import { type PrintReading, printReadings } from './printReading.ts';
import { printCallipers } from './printSize.ts';
import { stageOf, textsRead } from './recordReadings.ts';
import { reworkCautions } from './reworkCautions.ts';

/** One size of a print as a form asks for it. */
export interface PlaceFacts extends ReadingFacts {
  readonly kind: InterfaceKind;
  /** What the callipers should show, mm: with what they show closed, and less half a hollow where that is added. */
  readonly expected: number;
  /** Between which of their readings it fits, mm; null where there is no such end. */
  readonly limits: readonly [number | null, number | null];
}

/** A size of a print, judged, with what to do and why. */
export interface JudgedSize extends InspectedSize {
  /** Empty where nothing is to be done; no full stop, nor in `why`. */
  readonly todo: string;
  readonly why: string;
}

/** A print on the bench: what to read of it, and what the readings say. Plain data. */
export interface PrintFacts extends CurrentTrial {
  readonly callipers: Callipers;
  readonly readings: readonly PlaceFacts[];
  readonly groups: readonly PlaceGroup[];
  readonly sizes: readonly JudgedSize[];
  readonly unread: readonly string[];
  /** The gravest; null while nothing is read. */
  readonly verdict: InspectionVerdict | null;
  /** What explains several sizes at once; null where nothing does. */
  readonly drift: string | null;
  readonly cautions: readonly string[];
  readonly next: readonly NextAfterInspection[];
}

/** The facts of the print on the bench; `date` is when it is first spoken of, YYYY-MM-DD. Throws `Refused` as `plan` does. */
export function printFacts(prepared: Prepared, date: string, which: WhichPrint = {}): PrintFacts {
  const current = currentTrial(prepared, date, which);
  const { record } = current;
  const meetings = meetingsOf(prepared);
  const callipers = printCallipers(prepared, record);
  const bench = { unit: prepared.job.unit, callipers };
  const inspection = inspect(prepared, record);
  const { sizes, unread, verdict = null, drift } = inspection;
  return {
    ...current,
    callipers,
    readings: printReadings(meetings, record).map((reading) => {
      const meeting = meetings.find(({ id }) => id === reading.id)!;
      return placeFacts(reading, meeting, record, bench);
    }),
    groups: placeGroups(meetings.filter(({ id }) => Object.hasOwn(record.sizes, id))),
    sizes: sizes.map((size) => ({ ...size, todo: todoFor(size), why: whyOf(size, drift) })),
    unread: unread.map(({ id }) => id),
    verdict,
    drift: driftText(inspection) ?? null,
    cautions: reworkCautions(sizes.flatMap(({ rework }) => (rework === undefined ? [] : [rework.tool]))),
    next: nextAfterInspection(inspection),
  };
}

function placeFacts(
  { id, spec, half }: PrintReading,
  { one, part }: Meeting,
  record: TrialRecord,
  bench: { readonly unit: 'mm' | 'in'; readonly callipers: Callipers },
): PlaceFacts {
  const texts = textsRead(record, id, stageOf(record, id)).map(String);
  const asked = { id, spec, texts };
  const added = half === undefined ? 0 : (record.sizes[idOf(part.member, one.hollow!)]?.predicted ?? 0) / 2;
  const shows = (size: number) => readingOf({ ...spec, id }, size, bench.callipers);
  const [least, most] = limitsOf(one).map((end) => (Number.isFinite(end) ? shows(end - added) : null)) as [
    number | null,
    number | null,
  ];
  return {
    ...{ id, name: spec.name, kind: one.kind, jaw: spec.jaw, round: spec.round, unit: unitOf(spec) },
    ...{ from: spec.from, to: spec.to, times: spec.times, tip: spec.tip, optional: false, spec, texts },
    values: texts.map((text) => valueTyped(asked, text, bench)),
    dimension: dimensionRead(asked, bench) ?? null,
    expected: shows(spec.typical),
    limits: [least, most],
  };
}

/** Sizes of the print that leave a clearance inside the window on the machine as it was read; infinite where there is no such
 *  end. */
function limitsOf({ kind, host, window: { lo, hi } }: Meeting['one']): readonly [number, number] {
  const solid = kind === 'post' || kind === 'rib';
  return solid ? [host - hi, host - lo] : [host + lo, host + hi];
}

/** Rounds that turn a size into the reading of it: corrections are hundredths of it, so each leaves as little of the last. */
const ROUNDS = 8;

/** What callipers show of a size. */
function readingOf(
  spec: PrintReading['spec'] & { readonly id: string },
  size: number,
  callipers: Callipers,
): number {
  let reading = size;
  for (let k = 0; k < ROUNDS; k++) reading += size - correctedReading(spec, reading, callipers).value;
  return Number.isFinite(reading) ? reading : size;
}
