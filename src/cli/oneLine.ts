/** Text that stays one line whatever is in it: control characters, which could move the cursor, end the line or turn the
 *  direction of writing over, are written as escapes. */
export const oneLine = (text: string): string =>
  text.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for.
    /[\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
