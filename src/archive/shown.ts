/** A name from an archive as it stands in a sentence: quoted, escaped, at most 60 characters; what does not show, or turns
 *  the order of letters around, by its number.
 *  @example shown('a.stl') // => '"a.stl"' */
export const shown = (name: string): string =>
  JSON.stringify(name.length > 60 ? `${name.slice(0, 60)}...` : name).replace(
    /[\u007f-\u009f\p{Cf}\p{Zl}\p{Zp}]/gu,
    (character) => `\\u${character.codePointAt(0)!.toString(16).padStart(4, '0')}`,
  );
