/** A name from an archive as it stands in a sentence: quoted, escaped, at most 60 characters. */
export const shown = (name: string): string =>
  JSON.stringify(name.length > 60 ? `${name.slice(0, 60)}...` : name);
