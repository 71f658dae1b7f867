/** Breaks a plain text at its blanks into lines of at most `width` characters; a longer word stays whole.
 *  @example wrapped('one two three', 8) // => ['one two', 'three'] */
export function wrapped(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}
