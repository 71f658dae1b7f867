import { parseArgs } from 'node:util';

/** Where the page is found unless told otherwise. */
export const PORT = 4180;

/** The port that the words after `npm start --` ask for, or one line that says what is wrong with them.
 *  @example toldPort(['--port', '8080']) // => 8080 */
export function toldPort(words: readonly string[]): number | string {
  const allowed = 'allowed: --port with a whole number from 1 to 65535';
  let given: string | undefined;
  try {
    given = parseArgs({ args: [...words], options: { port: { type: 'string' } } }).values.port;
  } catch {
    return `${words.join(' ')} - is not understood; ${allowed}`;
  }
  if (given === undefined) return PORT;
  const port = Number(given);
  const isPort = /^\d{1,5}$/.test(given) && port >= 1 && port <= 65_535;
  return isPort ? port : `--port ${given} - is no port; ${allowed}`;
}
