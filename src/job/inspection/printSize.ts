import { dimensionOf, refusals } from '../../measure/index.ts';
import type { Callipers, Contributor, Dimension } from '../../measure/types.ts';
import { callipersOf } from '../callipersOf.ts';
import type { Prepared } from '../prepare.ts';
import { readingTyped } from '../readingTyped.ts';
import type { TrialRecord } from '../trialSchema.ts';
import type { PrintReading } from './printReading.ts';

/** The callipers a print was read with: its record's own, or else those of the job. */
export function printCallipers(
  { job, callipers }: Prepared,
  record: Pick<TrialRecord, 'inspected'>,
): Callipers {
  const own = record.inspected?.callipers;
  return own === undefined ? callipers : callipersOf(own, job.unit, () => undefined);
}

/** Readings that can be used, mm, as the callipers showed them. The job may have been edited by hand, and what cannot be
 *  understood or cannot be this size says nothing. */
export const readingsUsed = (
  { id, spec }: PrintReading,
  texts: readonly (string | number)[],
  callipers: Callipers,
  unit: 'mm' | 'in',
): readonly number[] =>
  texts.flatMap((text) => {
    const parsed = readingTyped(spec, String(text), unit);
    if (!parsed.ok || refusals({ ...spec, id }, [parsed.value], callipers).length > 0) return [];
    return [parsed.value];
  });

/** Sizes of a print as read, each with its uncertainty (JCGM 100), by interface; those without a usable reading are left
 *  out. `texts` are the readings as typed, by interface.
 *
 *  A cause of doubt that belongs to the reading of the print alone is called `reading:print.ID`, so that it is none of the
 *  machine's readings; `calliper:scale` and its like keep their names where machine and print were read with the same
 *  callipers, so that what they share cancels, and have `print:` before them otherwise. */
export function printSizes(
  prepared: Prepared,
  record: Pick<TrialRecord, 'inspected' | 'sizes'>,
  readings: readonly PrintReading[],
  texts: Readonly<Record<string, readonly (string | number)[]>>,
): Readonly<Record<string, Dimension>> {
  const callipers = printCallipers(prepared, record);
  const same = callipers.name === prepared.callipers.name;
  const read: Record<string, Dimension> = {};
  for (const reading of readings) {
    const used = readingsUsed(reading, texts[reading.id] ?? [], callipers, prepared.job.unit);
    if (used.length === 0) continue;
    const { spec, id } = reading;
    const dimension = asPrinted(dimensionOf({ ...spec, id: `print.${id}` }, used, callipers));
    read[id] = same ? dimension : { ...dimension, contributors: dimension.contributors.map(apart) };
  }
  const sizes: Record<string, Dimension> = {};
  for (const { id, half } of readings) {
    const dimension = read[id];
    if (dimension === undefined) continue;
    sizes[id] = half === undefined ? dimension : withHalf(dimension, half, read[half], record);
  }
  return sizes;
}

/** Nobody meant a round size by what a printer made of one. */
const asPrinted = (dimension: Dimension): Dimension => ({
  ...dimension,
  remarks: dimension.remarks.filter(({ kind }) => kind !== 'nominal'),
});

/** Shared causes of other callipers are causes of their own. */
const apart = (cause: Contributor): Contributor =>
  cause.id.startsWith('calliper:') ? { ...cause, id: `print:${cause.id}` } : cause;

/** A wall and half the hollow behind it. A hollow nobody has read is as wide as was expected of it. */
function withHalf(
  wall: Dimension,
  hollow: string,
  read: Dimension | undefined,
  { sizes }: Pick<TrialRecord, 'sizes'>,
): Dimension {
  const expected = sizes[hollow];
  if (read === undefined && expected === undefined) return wall;
  const width = read?.value ?? expected!.predicted;
  const causes: readonly Contributor[] = read?.contributors ?? [
    {
      id: `print:expected.${hollow}`,
      label: 'printer, width of the hollow',
      u: Math.hypot(expected!.doubt.printer, expected!.doubt.spread),
      distribution: 'normal',
      dof: Infinity,
    },
  ];
  const together = new Map(wall.contributors.map((cause) => [cause.id, cause]));
  for (const cause of causes) {
    const there = together.get(cause.id);
    together.set(cause.id, { ...cause, u: (there?.u ?? 0) + cause.u / 2 });
  }
  const contributors = [...together.values()];
  const u = Math.hypot(...contributors.map((cause) => cause.u));
  // Coverage as the wall has it: its own readings are most of the doubt.
  return { ...wall, value: wall.value + width / 2, u, U: wall.k * u, contributors };
}
