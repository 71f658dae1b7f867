import { DonorRefusal } from '../donorRefusal.ts';
import { decimal, latin } from './decimal.ts';
import { limits } from './limits.ts';

export type XmlEvent = 'start' | 'end' | 'over';

const [QUOTE, APOSTROPHE, SLASH, COLON, LESS, EQUALS, MORE, QUESTION, BANG] = [
  0x22, 0x27, 0x2f, 0x3a, 0x3c, 0x3d, 0x3e, 0x3f, 0x21,
] as const;

/** Reads XML 1.0 with namespaces from bytes, one tag after the other, and keeps nothing but the names of what is open:
 *  a tree of a million triangles takes more memory than all the rest of the work. No document type (3MF, core
 *  specification, 2.2.4: "MUST NOT" hold one), so no entities but the five of XML itself and characters by number.
 *  Text between tags is passed over. Throws `donor_model_unclear`. */
export class XmlReader {
  readonly #bytes: Uint8Array;
  readonly #part: string;
  #at = 0;
  #emptyPending = false;
  /** First and last byte of the name of each open element, and the namespaces declared there. */
  readonly #open: { from: number; to: number; declared: number }[] = [];
  readonly #spaces: { prefix: string; uri: string }[] = [];
  /** Four places an attribute: name from and to, value from and to. */
  readonly #attributes = new Int32Array(4 * 64);
  #count = 0;
  #nameFrom = 0;
  #nameTo = 0;

  /** `part`: name of the part, for messages. */
  constructor(bytes: Uint8Array, part: string) {
    this.#bytes = inUtf8(bytes);
    this.#part = part;
    if (this.#bytes[0] === 0xef && this.#bytes[1] === 0xbb && this.#bytes[2] === 0xbf) this.#at = 3;
  }

  /** Elements around the current tag, itself included after `start`. */
  get depth(): number {
    return this.#open.length;
  }

  /** Share of the text that is read. */
  get share(): number {
    return this.#at / this.#bytes.length;
  }

  /** Goes on to the next tag. An element without content is a start and an end. */
  next(): XmlEvent {
    if (this.#emptyPending) {
      this.#emptyPending = false;
      this.#close();
      return 'end';
    }
    const bytes = this.#bytes;
    for (;;) {
      while (this.#at < bytes.length && bytes[this.#at] !== LESS) this.#at++;
      if (this.#at >= bytes.length) {
        if (this.#open.length > 0) throw this.unclear('it ends inside an element', 'a whole file');
        return 'over';
      }
      const second = bytes[this.#at + 1];
      if (second === QUESTION) this.#skipPast('?>');
      else if (second === BANG && this.#looking('<!--')) this.#skipPast('-->');
      else if (second === BANG && this.#looking('<![CDATA[')) this.#skipPast(']]>');
      else if (second === BANG) throw this.unclear('a document type', 'XML without one');
      else if (second === SLASH) return this.#endTag();
      else return this.#startTag();
    }
  }

  /** Local name of the current tag. */
  get name(): string {
    return latin(this.#bytes, this.#localFrom(this.#nameFrom, this.#nameTo), this.#nameTo);
  }

  /** Whether the current tag has this local name; quicker than to compare `name`. */
  is(name: string): boolean {
    const from = this.#localFrom(this.#nameFrom, this.#nameTo);
    return this.#nameTo - from === name.length && this.#same(from, name);
  }

  /** Namespace of the current tag; empty when there is none. */
  get space(): string {
    const from = this.#localFrom(this.#nameFrom, this.#nameTo);
    return this.spaceOf(from === this.#nameFrom ? '' : latin(this.#bytes, this.#nameFrom, from - 1));
  }

  /** Namespace of a prefix here; empty when it has none. */
  spaceOf(prefix: string): string {
    for (let k = this.#spaces.length - 1; k >= 0; k--)
      if (this.#spaces[k]!.prefix === prefix) return this.#spaces[k]!.uri;
    return '';
  }

  /** Value of an attribute of the current start tag without a prefix, or with one that stands for `space`; undefined
   *  when it is not there. */
  attribute(name: string, space = ''): string | undefined {
    const k = this.#find(name, space);
    return k < 0 ? undefined : this.#decoded(this.#attributes[k + 2]!, this.#attributes[k + 3]!);
  }

  /** The same as a number; undefined when it is not there, NaN when it is no number. */
  number(name: string): number | undefined {
    const k = this.#find(name, '');
    if (k < 0) return undefined;
    return decimal(this.#bytes, this.#attributes[k + 2]!, this.#attributes[k + 3]!) ?? Number.NaN;
  }

  /** A refusal that names part and line. */
  unclear(given: string, allowed: string): DonorRefusal {
    let line = 1;
    for (let k = 0; k < Math.min(this.#at, this.#bytes.length); k++) if (this.#bytes[k] === 10) line++;
    return new DonorRefusal('donor_model_unclear', `${this.#part}, line ${line}: ${given}`, allowed);
  }

  #startTag(): 'start' {
    const bytes = this.#bytes;
    let at = this.#at + 1;
    this.#nameFrom = at;
    at = this.#nameEnd(at);
    this.#nameTo = at;
    if (at === this.#nameFrom) throw this.unclear('a tag without a name', 'well-formed XML');
    this.#count = 0;
    let declared = 0;
    for (;;) {
      while (at < bytes.length && bytes[at]! <= 0x20) at++;
      const byte = bytes[at];
      if (byte === MORE || (byte === SLASH && bytes[at + 1] === MORE)) {
        this.#emptyPending = byte === SLASH;
        this.#at = at + (byte === SLASH ? 2 : 1);
        break;
      }
      const nameFrom = at;
      at = this.#nameEnd(at);
      const nameTo = at;
      while (at < bytes.length && bytes[at]! <= 0x20) at++;
      if (nameTo === nameFrom || bytes[at] !== EQUALS)
        throw this.unclear('an unfinished tag', 'well-formed XML');
      at++;
      while (at < bytes.length && bytes[at]! <= 0x20) at++;
      const quote = bytes[at];
      if (quote !== QUOTE && quote !== APOSTROPHE)
        throw this.unclear('a value without quotes', 'well-formed XML');
      const valueFrom = ++at;
      while (at < bytes.length && bytes[at] !== quote && bytes[at] !== LESS) at++;
      if (bytes[at] !== quote) throw this.unclear('a value that does not end', 'well-formed XML');
      const valueTo = at++;
      if (bytes[nameFrom] === 0x78 && this.#same(nameFrom, 'xmlns') && this.#declares(nameFrom, nameTo)) {
        const prefix = nameTo - nameFrom === 5 ? '' : latin(this.#bytes, nameFrom + 6, nameTo);
        this.#spaces.push({ prefix, uri: this.#decoded(valueFrom, valueTo) });
        declared++;
      } else {
        if (4 * this.#count === this.#attributes.length)
          throw this.unclear('more than 64 attributes', 'a 3MF model');
        this.#attributes.set([nameFrom, nameTo, valueFrom, valueTo], 4 * this.#count++);
      }
    }
    if (this.#open.length === limits.depth)
      throw this.unclear(`more than ${limits.depth} elements inside one another`, 'a 3MF model');
    this.#open.push({ from: this.#nameFrom, to: this.#nameTo, declared });
    return 'start';
  }

  #endTag(): 'end' {
    const bytes = this.#bytes;
    const from = this.#at + 2;
    const to = this.#nameEnd(from);
    let at = to;
    while (at < bytes.length && bytes[at]! <= 0x20) at++;
    const top = this.#open.at(-1);
    let same = top !== undefined && top.to - top.from === to - from && bytes[at] === MORE;
    for (let k = 0; same && k < to - from; k++) same = bytes[top!.from + k] === bytes[from + k];
    if (!same) throw this.unclear('an end tag that closes nothing', 'well-formed XML');
    this.#nameFrom = from;
    this.#nameTo = to;
    this.#at = at + 1;
    this.#close();
    return 'end';
  }

  #close(): void {
    this.#count = 0;
    const { declared } = this.#open.pop()!;
    if (declared > 0) this.#spaces.length -= declared;
  }

  #declares(from: number, to: number): boolean {
    return to - from === 5 || this.#bytes[from + 5] === COLON;
  }

  #nameEnd(from: number): number {
    const bytes = this.#bytes;
    let at = from;
    for (; at < bytes.length; at++) {
      const byte = bytes[at]!;
      if (byte <= 0x20 || byte === MORE || byte === SLASH || byte === EQUALS || byte === LESS) break;
    }
    return at;
  }

  #localFrom(from: number, to: number): number {
    for (let k = from; k < to; k++) if (this.#bytes[k] === COLON) return k + 1;
    return from;
  }

  #find(name: string, space: string): number {
    for (let k = 0; k < 4 * this.#count; k += 4) {
      const [from, to] = [this.#attributes[k]!, this.#attributes[k + 1]!];
      if (space === '') {
        if (to - from === name.length && this.#same(from, name)) return k;
        continue;
      }
      const local = this.#localFrom(from, to);
      if (local === from || to - local !== name.length || !this.#same(local, name)) continue;
      if (this.spaceOf(latin(this.#bytes, from, local - 1)) === space) return k;
    }
    return -1;
  }

  #same(from: number, text: string): boolean {
    for (let k = 0; k < text.length; k++) if (this.#bytes[from + k] !== text.charCodeAt(k)) return false;
    return true;
  }

  #looking(text: string): boolean {
    return this.#same(this.#at, text);
  }

  #skipPast(text: string): void {
    let at = this.#at;
    while (at < this.#bytes.length && !this.#same(at, text)) at++;
    if (at >= this.#bytes.length) throw this.unclear('something that does not end', 'well-formed XML');
    this.#at = at + text.length;
  }

  #decoded(from: number, to: number): string {
    const text = new TextDecoder().decode(this.#bytes.subarray(from, to));
    if (!text.includes('&')) return text;
    return text.replace(/&([^;]{0,12});?/g, (_, name: string) => {
      const known = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" }[name];
      if (known !== undefined) return known;
      const code = /^#x[0-9a-f]+$/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
      if (!name.startsWith('#') || !(code > 0 && code <= 0x10ffff))
        throw this.unclear(`the entity &${name};`, 'the five of XML, and characters by number');
      return String.fromCodePoint(code);
    });
  }
}

/** The text as UTF-8: XML may come in UTF-16, which its first bytes tell. */
function inUtf8(bytes: Uint8Array): Uint8Array {
  const [a, b] = bytes;
  const little = (a === 0xff && b === 0xfe) || (a === LESS && b === 0);
  const big = (a === 0xfe && b === 0xff) || (a === 0 && b === LESS);
  if (!little && !big) return bytes;
  return new TextEncoder().encode(new TextDecoder(little ? 'utf-16le' : 'utf-16be').decode(bytes));
}
