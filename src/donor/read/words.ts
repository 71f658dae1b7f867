import { decimal, latin } from './decimal.ts';

/** Blank-separated words of a text, found in its bytes so that a file of hundreds of megabytes never becomes a string.
 *  Zero bytes count as blanks; `#`, `;` and `//` begin a comment that ends with the line. */
export class Words {
  readonly #bytes: Uint8Array;
  /** First byte of the current word, and the one after its last. */
  start = 0;
  end = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
    if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) this.end = 3;
  }

  /** Goes on to the next word; false at the end of the text. */
  next(): boolean {
    const bytes = this.#bytes;
    let at = this.end;
    for (;;) {
      while (at < bytes.length && bytes[at]! <= 0x20) at++;
      if (at >= bytes.length) {
        this.start = this.end = bytes.length;
        return false;
      }
      if (!this.#comment(at)) break;
      at = this.#lineEnd(at);
    }
    this.start = at;
    while (at < bytes.length && bytes[at]! > 0x20) at++;
    this.end = at;
    return true;
  }

  /** Whether the current word runs to the very end of the text, and may be cut off. */
  get last(): boolean {
    return this.end === this.#bytes.length;
  }

  /** Whether the current word is this one, upper or lower case. `word` in lower case, plain letters. */
  is(word: string): boolean {
    if (this.end - this.start !== word.length) return false;
    for (let k = 0; k < word.length; k++)
      if ((this.#bytes[this.start + k]! | 0x20) !== word.charCodeAt(k)) return false;
    return true;
  }

  /** The current word, at most `most` characters of it. */
  text(most = 40): string {
    return latin(this.#bytes, this.start, Math.min(this.end, this.start + most));
  }

  /** The rest of the line after the current word, trimmed; the next word is on the next line. Where a facet begins on
   *  the same line, the rest ends before it. */
  restOfLine(): string {
    const end = this.#lineEnd(this.end);
    const rest = latin(this.#bytes, this.end, Math.min(end, this.end + 2000));
    const facet = rest.search(/\bfacet\s+normal\b/i);
    this.end = facet < 0 ? end : this.end + facet;
    return (facet < 0 ? rest : rest.slice(0, facet)).trim();
  }

  /** Number of the line that the current word is in, from 1. */
  line(): number {
    let line = 1;
    for (let k = 0; k < this.start; k++) {
      const byte = this.#bytes[k]!;
      if (byte === 10 || (byte === 13 && this.#bytes[k + 1] !== 10)) line++;
    }
    return line;
  }

  /** The current word as a number; see `decimal`. */
  number(): number | undefined {
    return decimal(this.#bytes, this.start, this.end);
  }

  #comment(at: number): boolean {
    const byte = this.#bytes[at];
    return byte === 0x23 || byte === 0x3b || (byte === 0x2f && this.#bytes[at + 1] === 0x2f);
  }

  #lineEnd(from: number): number {
    let at = from;
    while (at < this.#bytes.length && this.#bytes[at] !== 10 && this.#bytes[at] !== 13) at++;
    return at;
  }
}
