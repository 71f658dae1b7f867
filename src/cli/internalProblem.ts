/** What a fault says of itself. What the geometry library throws from within is a bare number.
 *  @example faultText(171664) // => 'the geometry library broke down (171664)' */
export const faultText = (error: unknown): string => {
  if (typeof error === 'number') return `the geometry library broke down (${error})`;
  return error instanceof Error ? error.message : String(error);
};

/** The sentence for a fault of Fettle's own; `about` is the command or the file it was at work on. */
export const internalProblem = (about: string, message: string): string =>
  `${about}: internal problem: ${message}, please report it`;
