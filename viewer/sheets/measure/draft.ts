/** A number of a reading as the job holds it: as typed, or as a plain number from a file. */
export type Text = string | number;

/** A number while it is typed, before Enter. */
export interface Draft {
  /** Of which reading. */
  readonly id: string;
  /** Which of its numbers, from 0; one past the last is a new one. */
  readonly slot: number;
  readonly text: string;
  /** All numbers of the reading as this draft found or left them. */
  readonly numbers: readonly Text[];
  /** What stood there before; undefined for a new number. */
  readonly original: Text | undefined;
  /** What the job holds there now: the last text that could be read, or the original. */
  readonly counted: Text | undefined;
  /** Whether the job has been changed since: then undo takes all of it back in one step. */
  readonly changed: boolean;
  /** Typing has paused, or Enter was pressed: time to say what is wrong with the text. */
  readonly rested: boolean;
}

/** A number begun: a new one, or the one in `slot`, to be corrected. Of a `single` reading, entered once, the one there is
 *  is meant. */
export function begun(id: string, texts: readonly Text[], single: boolean, slot?: number): Draft {
  const at = Math.min(slot ?? (single ? 0 : texts.length), texts.length);
  const original = texts[at];
  return {
    id,
    slot: at,
    text: String(original ?? ''),
    numbers: texts,
    original,
    counted: original,
    changed: false,
    rested: false,
  };
}

/** What the job should hold in the place of a draft: its text when that can be read, what stood there before when not. A
 *  half-typed text therefore never stands in a job. */
export const wanted = ({ text, original }: Draft, readable: boolean): Text | undefined =>
  readable ? text.trim() : original;

/** Numbers with `to` in the place of `from`; undefined `from` adds, undefined `to` takes away. `slot` is where `from` should
 *  be; it is looked for where another tab has moved it, and never taken for a number that came in its place.
 *  @example exchanged(['1.60', '1.6'], 1, '1.6', '1.61') // => ['1.60', '1.61'] */
export function exchanged(
  texts: readonly Text[],
  slot: number,
  from: Text | undefined,
  to: Text | undefined,
): readonly Text[] {
  const same = (text: Text | undefined) => from !== undefined && String(text) === String(from);
  const at = same(texts[slot]) ? slot : texts.findLastIndex(same);
  const added = to === undefined ? [] : [to];
  return at < 0 ? [...texts, ...added] : [...texts.slice(0, at), ...added, ...texts.slice(at + 1)];
}

/** Whether two lists hold the same texts. */
export const sameTexts = (a: readonly Text[], b: readonly Text[]): boolean =>
  a.length === b.length && a.every((text, k) => String(text) === String(b[k]));
