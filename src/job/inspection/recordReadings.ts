import type { TrialRecord } from '../trialSchema.ts';

/** Which readings of a print are meant: before or after it was filed or drilled. */
export type Stage = 'readings' | 'after';

type Texts = readonly (string | number)[];
type Read = Pick<TrialRecord, 'inspected' | 'reworked'>;

/** Which readings of an interface count: those after it was filed or drilled, where that is noted. */
export const stageOf = ({ reworked }: Read, id: string): Stage =>
  reworked?.includes(id) ? 'after' : 'readings';

/** Readings of an interface as typed. */
export const textsRead = ({ inspected }: Read, id: string, stage: Stage): Texts => {
  const texts = inspected?.[stage];
  return texts !== undefined && Object.hasOwn(texts, id) ? texts[id]! : [];
};

/** The record with these readings in it, by interface. What is read `after` it was filed or drilled notes that it was. */
export function withReadings<R extends Read>(
  record: R,
  texts: Readonly<Record<string, Texts>>,
  stage: (id: string) => Stage = (id) => stageOf(record, id),
): R {
  const { readings = {}, after, ...rest } = record.inspected ?? {};
  const both = { readings: { ...readings }, after: { ...after } };
  const filed = new Set(record.reworked ?? []);
  for (const [id, all] of Object.entries(texts)) {
    both[stage(id)][id] = [...all];
    if (stage(id) === 'after') filed.add(id);
  }
  return {
    ...record,
    inspected: {
      ...rest,
      readings: both.readings,
      ...(Object.keys(both.after).length > 0 && { after: both.after }),
    },
    ...(filed.size > 0 && { reworked: [...filed] }),
  };
}

/** The record with a note that these interfaces have been filed or drilled: what was read of them after an earlier time says
 *  nothing now. */
export function filedAnew<R extends Read>(record: R, filed: readonly string[]): R {
  const { inspected } = record;
  const after = Object.entries(inspected?.after ?? {}).filter(([id]) => !filed.includes(id));
  return {
    ...record,
    reworked: [...new Set([...(record.reworked ?? []), ...filed])],
    ...(inspected && { inspected: { ...inspected, after: Object.fromEntries(after) } }),
  };
}

/** What a record holds once a file is taken into it. A file that goes on from what is there, or says it again, leaves nothing
 *  twice; other readings stand beside those there are.
 *  @example takenIn(['4.0'], ['4.0', '4.1']) // => ['4.0', '4.1'] */
export function takenIn(there: Texts, told: Texts): Texts {
  const begins = there.every((text, k) => k >= told.length || String(text) === String(told[k]));
  if (begins) return told.length >= there.length ? told : there;
  return [...there, ...told];
}
