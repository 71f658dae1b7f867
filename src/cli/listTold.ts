/** Gathers an option that may be given several times, each time with one or more values between commas.
 *  @example listTold('a, b', ['c']) // => ['c', 'a', 'b'] */
export const listTold = (text: string, before: readonly string[] = []): readonly string[] => [
  ...before,
  ...text.split(/[,;]/).flatMap((part) => (part.trim() === '' ? [] : [part.trim()])),
];
