/** Keeps a number on the line of its unit.
 *  @example unbroken('29 N at 4 mm') // => '29\u00a0N at 4\u00a0mm' */
export const unbroken = (words: string): string =>
  words.replace(/(\d) (?=(?:%|mm|N|g|deg|degC|MPa|min|h)(?![\w]))/g, '$1\u00a0');
