/** Text that stays one line whatever is in it: control characters, which could move the cursor or end the line, are
 *  written as escapes. */
export const oneLine = (text: string): string =>
  text.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for.
    /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
