/** The sentence for a fault of Fettle's own; `about` is the command or the file it was at work on. */
export const internalProblem = (about: string, message: string): string =>
  `${about}: internal problem: ${message}, please report it`;
