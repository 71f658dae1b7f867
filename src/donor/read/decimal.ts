const [PLUS, POINT, MINUS, ZERO, NINE, SMALL_E] = [0x2b, 0x2e, 0x2d, 0x30, 0x39, 0x65] as const;

/** 1, 10, 100 ...: exact up to here, which `10 ** n` need not be in every engine. */
const TENS = Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

/** Longer words are no numbers that anybody writes. */
const LONGEST = 400;

/** A number written in bytes from `from` to before `to`, rounded as `Number` would; NaN for words such as `nan`, `-inf`,
 *  `1.#IND`; undefined when it is no number. `1,5` is 1.5 and `1.5D2` is 150, as some writers have it. Several times
 *  quicker than to make a string of each number of a large file.
 *  @example decimal(new TextEncoder().encode('-1.25e2'), 0, 7) // => -125 */
export function decimal(bytes: Uint8Array, from: number, to: number): number | undefined {
  let at = from;
  const negative = bytes[at] === MINUS;
  if (negative || bytes[at] === PLUS) at++;
  let mantissa = 0;
  // Zeros in front are digits that take up no precision.
  let written = 0;
  let significant = 0;
  let power = 0;
  let point = false;
  for (; at < to; at++) {
    const byte = bytes[at]!;
    if (byte >= ZERO && byte <= NINE) {
      mantissa = 10 * mantissa + (byte - ZERO);
      written++;
      if (mantissa > 0) significant++;
      if (point) power--;
    } else if (byte === POINT && !point) point = true;
    else break;
  }
  if (at + 1 < to && (bytes[at]! | 0x20) === SMALL_E && written > 0) {
    at++;
    const down = bytes[at] === MINUS;
    if (down || bytes[at] === PLUS) at++;
    let exponent = 0;
    const first = at;
    for (; at < to && bytes[at]! >= ZERO && bytes[at]! <= NINE && at - first < 6; at++)
      exponent = 10 * exponent + (bytes[at]! - ZERO);
    if (at === first) return slowly(bytes, from, to);
    power += down ? -exponent : exponent;
  }
  // Fifteen digits and powers of ten up to 22 are exact in doubles, so one rounding is all there is.
  if (at !== to || written === 0 || significant > 15 || power < -22 || power > 22)
    return slowly(bytes, from, to);
  const size = power < 0 ? mantissa / TENS[-power]! : mantissa * TENS[power]!;
  return negative ? -size : size;
}

function slowly(bytes: Uint8Array, from: number, to: number): number | undefined {
  if (to - from > LONGEST) return undefined;
  const text = latin(bytes, from, to).trim();
  if (/^[+-]?(nan|inf(inity)?|1\.#)/i.test(text)) return Number.NaN;
  const plain = text.replace(/^([+-]?\d*),(\d*)/, '$1.$2').replace(/d([+-]?\d+)$/i, 'e$1');
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : undefined;
}

/** Bytes as text, one character each. */
export function latin(bytes: Uint8Array, from: number, to: number): string {
  let text = '';
  for (let k = from; k < to; k++) text += String.fromCharCode(bytes[k]!);
  return text;
}
