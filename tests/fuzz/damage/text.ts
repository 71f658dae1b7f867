import fc from 'fast-check';

/** Ways in which programs and people change a text on its way, all of which may leave it readable. */
const WAYS: Readonly<Record<string, (text: string) => Uint8Array>> = {
  plain: utf8,
  'with a byte order mark': (text) => utf8(`\ufeff${text}`),
  'with two of them': (text) => utf8(`\ufeff\ufeff${text}`),
  'with CRLF': (text) => utf8(text.replaceAll('\n', '\r\n')),
  'with CR': (text) => utf8(text.replaceAll('\n', '\r')),
  'in UTF-16': (text) => Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le')),
  'in Latin-1': (text) => Uint8Array.from(Buffer.from(text, 'latin1')),
  'with blank lines': (text) => utf8(`\n\n${text}\n\n\n`),
  'with more behind it': (text) => utf8(`${text}\n${text.slice(0, 40)}`),
  'with a zero behind it': (text) => utf8(`${text}\0`),
  'with blanks that do not break': (text) => utf8(text.replaceAll(' ', '\u00a0')),
  'in upper case': (text) => utf8(text.toUpperCase()),
  'in no byte': () => new Uint8Array(0),
};

function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** How a text is written down; mostly plainly. */
export const way: fc.Arbitrary<string> = fc.oneof(
  { weight: 3, arbitrary: fc.constant('plain') },
  { weight: 1, arbitrary: fc.constantFrom(...Object.keys(WAYS)) },
);

export const written = (text: string, how: string): Uint8Array => WAYS[how]!(text);
