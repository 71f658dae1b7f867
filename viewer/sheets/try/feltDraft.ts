import type { PlaceGroup } from '../../../src/job/inspection/placeGroups.ts';
import { saidLimits } from '../../../src/job/trial/trialSaid.ts';
import type { FeltWord, TrialRecord } from '../../../src/job/trialSchema.ts';
import type { PageSaid } from '../../spine/tasks/trial.ts';

/** What is being said of a print, before it goes on record. */
export interface FeltDraft {
  /** By group, or by interface where a group is told apart. */
  readonly felt: Readonly<Record<string, FeltWord>>;
  /** Groups whose places are told one by one. */
  readonly apart: readonly string[];
  /** Lines that were filed or drilled before they were tried. */
  readonly filed: readonly string[];
  readonly broken: string;
  readonly note: string;
}

export const nothingSaid: FeltDraft = { felt: {}, apart: [], filed: [], broken: '', note: '' };

/** One line of the form: a group, or one place of it. */
export interface FeltLine {
  /** Of the group, or of the interface. */
  readonly id: string;
  readonly name: string;
  readonly ids: readonly string[];
  /** The group it could be told with, or apart from; null for one of a single place. */
  readonly group: string | null;
  /** What is on record of it already; null for nothing. */
  readonly known: FeltWord | null;
}

/** The lines to be asked, in the order of the result. What is on record of one place of a group is told apart from the rest. */
export function feltLines(
  groups: readonly PlaceGroup[],
  nameOf: (id: string) => string,
  { apart }: Pick<FeltDraft, 'apart'>,
  { felt = {} }: Pick<TrialRecord, 'felt'>,
): readonly FeltLine[] {
  const knownOf = (id: string): FeltWord | null => (Object.hasOwn(felt, id) ? felt[id]! : null);
  return groups.flatMap(({ id, name, ids }): FeltLine[] => {
    const several = ids.length > 1;
    if (!several || apart.includes(id) || ids.some((one) => knownOf(one) !== null))
      return ids.map((one) => ({
        id: one,
        name: several ? nameOf(one) : name,
        ids: [one],
        group: several ? id : null,
        known: knownOf(one),
      }));
    return [{ id, name, ids, group: id, known: null }];
  });
}

/** What a draft says, for the worker. */
export const saidBy = ({ felt, filed, broken, note }: FeltDraft, lines: readonly FeltLine[]): PageSaid => ({
  felt: lines.flatMap(({ id, name, ids, known }) => {
    const word = felt[id];
    return word === undefined || known !== null ? [] : [{ name, ids, word }];
  }),
  reworked: lines.flatMap(({ id, ids }) => (filed.includes(id) ? ids : [])),
  broken: brokenOf(broken),
  note: note.trim() === '' ? undefined : note.trim(),
});

/** Several things that broke stand between semicolons. */
const brokenOf = (text: string): readonly string[] =>
  text
    .split(';')
    .map((each) => each.trim())
    .filter((each) => each !== '')
    .slice(0, saidLimits.mostBroken);

/** Whether there is anything in it. */
export const saysNothing = ({ felt, filed, broken, note }: FeltDraft): boolean =>
  Object.keys(felt).length === 0 && filed.length === 0 && broken.trim() === '' && note.trim() === '';

/** The draft with a line felt so; null: not tried. */
export function withFelt(draft: FeltDraft, id: string, word: FeltWord | null): FeltDraft {
  const { [id]: _, ...others } = draft.felt;
  return { ...draft, felt: word === null ? others : { ...draft.felt, [id]: word } };
}

/** A draft out of what a tab remembers of it; nothing said where that is none. */
export function draftFrom(text: string | null): FeltDraft {
  try {
    const read = JSON.parse(text ?? '') as Partial<FeltDraft>;
    const draft = { ...nothingSaid, ...read };
    const texts = (all: unknown): boolean =>
      Array.isArray(all) && all.every((one) => typeof one === 'string');
    const words = Object.values(draft.felt).every((word) => ['tight', 'right', 'loose'].includes(word));
    const sound = words && texts(draft.apart) && texts(draft.filed) && texts([draft.broken, draft.note]);
    return sound ? draft : nothingSaid;
  } catch {
    return nothingSaid;
  }
}
