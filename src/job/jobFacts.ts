import type { ChoiceSpec, SizeSpec, TextSpec } from '../family/choice.ts';
import { askedReadings, type Family } from '../family/family.ts';
import type { ReadingSpec } from '../family/reading.ts';
import type { Values } from '../family/values.ts';
import { unitOf } from '../measure/index.ts';
import type { Callipers, Dimension, Jaw } from '../measure/types.ts';
import { prepareWithoutReadings } from './prepareWithoutReadings.ts';
import type { Job } from './schema.ts';
import { dimensionRead, type Reading, valueTyped } from './takenReading.ts';

/** One reading as a form asks for it, with what has been typed so far. */
export interface ReadingFacts {
  readonly id: string;
  readonly name: string;
  readonly jaw: Jaw;
  readonly round: boolean;
  readonly unit: Dimension['unit'];
  readonly from: number;
  readonly to: number;
  readonly times: number;
  readonly tip: string;
  /** Need not be read. */
  readonly optional: boolean;
  /** All that the family says of it but when it is asked, so that a form can judge a text as it is typed. */
  readonly spec: Omit<ReadingSpec, 'when'>;
  /** As typed. */
  readonly texts: readonly string[];
  /** What each text reads, in the unit; null with the reason for one that cannot be used. */
  readonly values: readonly ({ readonly value: number } | { readonly refused: string })[];
  /** What the readings come to; null while there are none, or one of them cannot be used. */
  readonly dimension: Dimension | null;
}

/** What a form about a job needs to know: plain data, for any state of its readings. */
export interface JobFacts {
  /** The pair of callipers as understood, with what the job leaves out. */
  readonly callipers: Callipers;
  readonly family: { readonly id: string; readonly title: string; readonly summary: string };
  readonly readings: readonly ReadingFacts[];
  readonly choices: readonly (ChoiceSpec & { readonly id: string; readonly chosen: string })[];
  readonly sizes: readonly (SizeSpec & {
    readonly id: string;
    /** As typed; null where the job says nothing. */
    readonly text: string | null;
    /** What it is then, with the readings there are; null while some it hangs on are missing. */
    readonly normal: number | null;
  })[];
  readonly texts: readonly (TextSpec & { readonly id: string; readonly text: string })[];
}

/** The facts of a job. Throws `Refused` when what does not hang on readings is wrong. */
export function jobFacts(job: Job, family: Family): JobFacts {
  const { callipers, values } = prepareWithoutReadings(job, family);
  const bench = { unit: job.unit, callipers };
  const readings = askedReadings(family, values.choices).map(([id, asked]): ReadingFacts => {
    // A function cannot be handed on to another thread.
    const { when: _, ...spec } = asked;
    const reading: Reading = { id, spec, texts: (job.readings[id] ?? []).map(String) };
    return {
      id,
      name: spec.name,
      jaw: spec.jaw,
      round: spec.round,
      unit: unitOf(spec),
      from: spec.from,
      to: spec.to,
      times: spec.times,
      tip: spec.tip,
      optional: spec.optional === true || spec.otherwise !== undefined,
      spec,
      texts: reading.texts,
      values: reading.texts.map((text) => valueTyped(reading, text, bench)),
      dimension: dimensionRead(reading, bench) ?? null,
    };
  });
  const normal = normalSizes(family, values, readings);
  return {
    callipers,
    family: { id: family.id, title: family.title, summary: family.summary },
    readings,
    choices: Object.entries(family.choices).map(([id, spec]) => ({
      ...spec,
      id,
      chosen: values.choices[id]!,
    })),
    sizes: Object.entries(family.sizes).map(([id, spec]) => {
      const typed = job.sizes[id];
      return { ...spec, id, text: typed === undefined ? null : String(typed), normal: normal(id) };
    }),
    texts: Object.entries(family.texts).map(([id, spec]) => ({ ...spec, id, text: job.texts?.[id] ?? '' })),
  };
}

/** Normal sizes with the readings there are; those that hang on missing ones come out as no number. */
function normalSizes(family: Family, values: Values, readings: readonly ReadingFacts[]) {
  const read = Object.fromEntries(
    Object.keys(family.readings).map((id) => [
      id,
      readings.find((one) => one.id === id)?.dimension?.value ?? Number.NaN,
    ]),
  );
  const sizes = family.normalSizes({ ...values, ...read } as Values);
  return (id: string): number | null => {
    const size = sizes[id];
    return size !== undefined && Number.isFinite(size) ? size : null;
  };
}
