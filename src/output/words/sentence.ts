/** Bench words as a sentence: a capital first and a full stop last; empty stays empty.
 *  @example sentence('push it in by thumb') // => 'Push it in by thumb.' */
export const sentence = (words: string): string =>
  words === '' ? '' : `${words[0]!.toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}`;
