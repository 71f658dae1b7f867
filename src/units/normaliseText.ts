/** Fractions that keyboards and documents offer as one character. */
const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** Brings the many ways to type the same text to one: plain spaces, `"` for inch marks, `'` for foot
 *  marks, `-` for dashes, `/` for fraction strokes, `°` for degree signs, lower case.
 *  Changes no digit and no decimal sign. Never throws.
 *  @example normaliseText(' 1½″ ') // => '1 1/2"' */
export function normaliseText(text: string): string {
  return (
    text
      .replace(/[½¼¾⅛⅜⅝⅞]/g, (mark) => ` ${VULGAR[mark]}`)
      .replace(/[\u2044\u2215]/g, '/')
      .replace(/[\u2010-\u2015\u2212]/g, '-')
      .replace(/[\u2018\u2019\u201B\u2032\u02B9\u00B4`]/g, "'")
      // Two single marks are an inch mark, so this comes after the single marks are one character.
      .replace(/[\u201C\u201D\u201F\u2033\u02BA\uFF02]|''/g, '"')
      .replace(/\u2103/g, '°c')
      .replace(/[\u00BA\u02DA]/g, '°')
      .replace(/\s+/g, ' ')
      .trim()
      .toLowerCase()
  );
}
