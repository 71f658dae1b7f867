import type { FeltWord, TrialRecord } from '../trialSchema.ts';

/** What a person says of a print. */
export interface TrialSaid {
  readonly felt: Readonly<Record<string, FeltWord>>;
  readonly reworked: readonly string[];
  readonly broken: readonly string[];
  readonly note: string | undefined;
  /** A feeling said of a group that is about one of its sizes: the group and that size. */
  readonly taken: readonly {
    readonly name: string;
    readonly word: FeltWord;
    readonly ids: readonly string[];
  }[];
}

/** Longest of what is written down, as the record holds it, letters; and most things that broke. */
export const saidLimits = { broken: 200, note: 2000, mostBroken: 50 } as const;

/** The record with what was said in it: added to, never written over. It counts as felt even where nothing was tried. */
export function saidOf(record: TrialRecord, said: Omit<TrialSaid, 'taken'>): TrialRecord {
  const reworked = [...new Set([...(record.reworked ?? []), ...said.reworked])];
  const broken = [...(record.broken ?? []), ...said.broken];
  const note = [record.note, said.note].filter((text) => text !== undefined).join('; ');
  return {
    ...record,
    felt: { ...record.felt, ...said.felt },
    ...(reworked.length > 0 && { reworked }),
    ...(broken.length > 0 && { broken }),
    ...(note !== '' && { note: note.slice(0, saidLimits.note) }),
  };
}
