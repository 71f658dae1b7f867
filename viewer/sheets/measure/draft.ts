/** Numbers of a reading as the job holds them: as typed, or as plain numbers from a file. */
export type Texts = readonly (string | number)[];

/** A number while it is typed, before Enter. */
export interface Draft {
  /** Of which reading. */
  readonly id: string;
  /** Which of its numbers, from 0; one past the last is a new one. */
  readonly slot: number;
  readonly text: string;
  /** The numbers before this one was touched; what the job goes back to while the text is no reading. */
  readonly base: Texts;
  /** Whether the job has been changed since: then undo takes it back in one step. */
  readonly changed: boolean;
  /** Typing has paused, or Enter was pressed: time to say what is wrong with the text. */
  readonly rested: boolean;
}

/** A number begun: a new one, or the `slot` there is, to be corrected. `single` readings are entered once, so the one
 *  there is is meant. */
export function begun(id: string, base: Texts, single: boolean, slot?: number): Draft {
  const at = Math.min(slot ?? (single ? 0 : base.length), base.length);
  return { id, slot: at, text: String(base[at] ?? ''), base, changed: false, rested: false };
}

/** The numbers of the job with the draft among them: in its place when it can be read, as they were before when not.
 *  A half-typed text therefore never stands in a job.
 *  @example numbersWith({ ...begun('bar', ['1.60'], false), text: '1.61' }, true) // => ['1.60', '1.61'] */
export function numbersWith({ base, slot, text }: Draft, readable: boolean): Texts {
  return readable ? [...base.slice(0, slot), text.trim(), ...base.slice(slot + 1)] : base;
}

/** The numbers without the one the draft corrects. */
export const numbersWithout = ({ base, slot }: Pick<Draft, 'base' | 'slot'>): Texts =>
  base.filter((_, k) => k !== slot);

/** Whether two lists hold the same texts. */
export const sameTexts = (a: Texts, b: Texts): boolean =>
  a.length === b.length && a.every((text, k) => String(text) === String(b[k]));
