import { type ReadonlySignal, signal } from '@preact/signals';
import { begun, type Draft, exchanged, type Text, wanted } from './draft.ts';
import { turnIsOver } from './nextReading.ts';

/** How long typing must pause until what cannot be read is said to be so, ms. Shorter would nag between two digits. */
const PAUSE = 700;

/** A reading whose numbers are typed. */
export interface TypedReading {
  /** What it is called when a number of it is said to be taken. */
  readonly name: string;
  /** How many numbers it wants. */
  readonly times: number;
  /** Entered once, so that another number takes the place of the first. */
  readonly single: boolean;
}

/** Where the numbers come from and go to. */
export interface TypingBook {
  /** A reading as it is now; undefined where there is none of that name. */
  reading(id: string): TypedReading | undefined;
  texts(id: string): readonly Text[];
  /** Why a text is no number of a reading; null when it is one, and while that is not known. */
  refusal(id: string, text: string): string | null;
  /** Where to go on after a reading; null when every number is there. */
  next(from: string): string | null;
  /** Puts a text, or none, in the place of what is counted of a draft. False where that made the change of this draft come
   *  to nothing. */
  put(draft: Draft, to: Text | undefined, deed: 'read' | 'taken away'): boolean;
}

/** A number being typed into one of many fields: what can be read counts with every digit, Enter goes on, and what was begun can be
 *  given up. */
export class Typing {
  readonly #book: TypingBook;
  readonly #draft = signal<Draft | null>(null);
  readonly #left = signal<ReadonlyMap<string, string>>(new Map());
  readonly #current = signal<string | null>(null);
  /** What was done last, for those who hear the page. */
  readonly said = signal('');
  #wasComplete = false;
  #pause: ReturnType<typeof setTimeout> | undefined;

  constructor(book: TypingBook) {
    this.#book = book;
  }

  get draft(): ReadonlySignal<Draft | null> {
    return this.#draft;
  }

  /** The reading typed last, also when its field has been left. */
  get current(): ReadonlySignal<string | null> {
    return this.#current;
  }

  /** Texts that were left in their fields though they cannot be read, by reading. */
  get left(): ReadonlySignal<ReadonlyMap<string, string>> {
    return this.#left;
  }

  /** The field of a reading has been entered: a new number, or `slot` to be corrected. */
  open(id: string, slot?: number): void {
    if (this.#draft.peek()?.id === id && slot === undefined) return;
    this.#close();
    const reading = this.#book.reading(id);
    this.#wasComplete = reading !== undefined && this.#book.texts(id).length >= reading.times;
    this.#current.value = id;
    this.begin(id, slot);
    const left = this.#left.peek().get(id);
    if (left !== undefined && slot === undefined) this.#bringBack(id, left);
  }

  /** The field has been left: what can be read has counted all along; what cannot stays in the field, marked. */
  leave(id: string): void {
    if (this.#draft.peek()?.id === id) this.#close();
  }

  /** The text of the field as it is now. */
  type(text: string): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    clearTimeout(this.#pause);
    this.#draft.value = { ...draft, text, rested: false };
    if (this.judged(text) === null) this.#write(text.trim());
    // A decimal sign on its way to its digit must not take the number away; only a pause does.
    else this.#pause = setTimeout(() => this.#rest(), PAUSE);
  }

  /** Enter: takes the number and says where to go on, null for here. */
  enter(): string | null {
    const draft = this.#draft.peek();
    const reading = draft && this.#book.reading(draft.id);
    if (!draft || !reading) return null;
    clearTimeout(this.#pause);
    const text = draft.text.trim();
    if (text === '' && draft.original !== undefined) {
      this.takeAway();
      return null;
    }
    if (text === '') {
      const next = this.#book.next(draft.id);
      this.said.value = next === null ? 'Every reading is there.' : '';
      return next;
    }
    if (this.judged(draft.text) !== null) {
      this.#rest();
      return null;
    }
    this.#write(text);
    const { name, times, single } = reading;
    const taken = this.#book.texts(draft.id).length;
    this.said.value = `${name}: ${text} taken, ${taken} of ${Math.max(times, taken)}.`;
    const over = turnIsOver(taken, times, { wasComplete: this.#wasComplete, single });
    const next = over ? this.#book.next(draft.id) : null;
    if (over && next === null) this.said.value += ' Every reading is there.';
    if (next === null) this.begin(draft.id);
    return next;
  }

  /** Goes to the number before or after the one in the field. */
  step(by: 1 | -1): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    const slot = draft.slot + by;
    this.#settle();
    if (slot >= 0 && slot <= this.#book.texts(draft.id).length) this.begin(draft.id, slot);
  }

  /** Takes away the number in the field. */
  takeAway(): void {
    const draft = this.#draft.peek();
    if (draft?.original === undefined) return;
    this.#write(undefined, 'taken away');
    this.said.value = `${this.#book.reading(draft.id)?.name ?? ''}: ${draft.original} taken away.`;
    this.#wasComplete = false;
    this.begin(draft.id);
  }

  /** Gives the typing up: the numbers are as they were before it. */
  giveUp(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#write(draft.original);
    this.begin(draft.id);
  }

  /** Why a text is no number of the current field; null when it is one. */
  judged(text: string): string | null {
    const id = this.#draft.peek()?.id;
    return id === undefined ? null : this.#book.refusal(id, text);
  }

  /** Begins a number of a reading anew from what the book holds. */
  begin(id: string, slot?: number): void {
    clearTimeout(this.#pause);
    const single = this.#book.reading(id)?.single ?? false;
    this.#draft.value = begun(id, this.#book.texts(id), single, slot);
  }

  /** The numbers have changed beneath the draft, by undo or by a file: `id` is what that was about. */
  changedBeneath(id: string | null): void {
    this.#wasComplete = false;
    if (id !== null) this.#current.value = id;
    const draft = this.#draft.peek();
    if (draft) this.begin(draft.id);
  }

  /** What was typed for other numbers is nothing to these. */
  forget(): void {
    clearTimeout(this.#pause);
    this.#draft.value = null;
    this.#left.value = new Map();
    this.#current.value = null;
    this.said.value = '';
  }

  /** Ends the typing, as when the field is left. */
  #close(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#settle();
    const touched = draft.text !== String(draft.original ?? '');
    if (touched && draft.text.trim() === '') this.takeAway();
    else if (touched && this.judged(draft.text) !== null)
      this.#left.value = new Map(this.#left.peek()).set(draft.id, draft.text);
    this.#draft.value = null;
  }

  /** Takes the draft at its word, as far as it has one. */
  #settle(): void {
    clearTimeout(this.#pause);
    const draft = this.#draft.peek();
    if (!draft || draft.text.trim() === '') return;
    this.#write(wanted(draft, this.judged(draft.text) === null));
  }

  /** A text that was left behind goes back into its field. */
  #bringBack(id: string, text: string): void {
    const left = new Map(this.#left.peek());
    left.delete(id);
    this.#left.value = left;
    const draft = this.#draft.peek();
    if (draft) this.#draft.value = { ...draft, text, rested: true };
  }

  #rest(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#write(wanted(draft, this.judged(draft.text) === null));
    const now = this.#draft.peek();
    if (now) this.#draft.value = { ...now, rested: true };
  }

  #write(to: Text | undefined, deed: 'read' | 'taken away' = 'read'): void {
    const draft = this.#draft.peek();
    if (!draft || to === draft.counted || this.#book.reading(draft.id) === undefined) return;
    // Before the book changes: whoever follows it compares it with the draft.
    const numbers = exchanged(this.#book.texts(draft.id), draft.slot, draft.counted, to);
    this.#draft.value = { ...draft, numbers, counted: to, changed: true };
    const changed = this.#book.put(draft, to, deed);
    const now = this.#draft.peek();
    if (now && !changed) this.#draft.value = { ...now, changed: false };
  }
}
