/** Advances in widths of an em of the widest face of `fontStack` (DejaVu Sans; measured where it is drawn), so that text set in any
 *  other stays inside of the room reckoned for it. */
const advances: readonly (readonly [RegExp, number])[] = [
  [/[0-9]/, 0.637],
  [/[ .,]/, 0.318],
  [/[:;/|]/, 0.337],
  [/[()[\]]/, 0.391],
  [/[-\u2010-\u2013]/, 0.5],
  [/[+=<>~\u00b1\u00d7\u2212]/, 0.838],
  [/[ijlI']/, 0.318],
  [/[rtfJ]/, 0.412],
  [/[mMW%@\u2026]/, 1],
  [/[wGOQDHNU]/, 0.82],
  [/[a-z]/, 0.635],
  [/[A-Z\u2300]/, 0.715],
  [/\p{M}/u, 0],
  [/[\u00a0-\u024f]/, 0.8],
];
/** Of any other sign: those of the East fill an em. */
const WIDEST = 1.08;

/** Capitals of the usual faces without serifs stand this share of the font size tall. */
export const CAPITAL = 0.72;

/** Width that text with capitals of `height` mm may take, mm: an upper estimate, for no face is at hand where drawings are
 *  made.
 *  @example textWidth('10', 3.6) // => 6.37 */
export function textWidth(words: string, height: number): number {
  let ems = 0;
  for (const sign of words) ems += advances.find(([signs]) => signs.test(sign))?.[1] ?? WIDEST;
  return (ems * height) / CAPITAL;
}

/** As much of the words as fits `width` mm; what had to go is marked by an ellipsis.
 *  @example fittedText('Enter key clips', 2.5, 20) // => 'Enter ke…' */
export function fittedText(words: string, height: number, width: number): string {
  if (textWidth(words, height) <= width) return words;
  const signs = [...words];
  while (signs.length > 0 && textWidth(`${signs.join('').trimEnd()}…`, height) > width) signs.pop();
  return `${signs.join('').trimEnd()}…`;
}
