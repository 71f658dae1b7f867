import { createInterface } from 'node:readline';

/** Asks for one line after another. */
export interface Asker {
  /** The next line typed, without its end; null once there is no more. */
  ask(prompt: string): Promise<string | null>;
  close(): void;
}

/** Lines from a terminal, a pipe or a file alike. One reader for the whole session: lines that arrive while nobody
 *  asks (a calliper's data cable, a pipe) wait in line and none is lost. In a pipe the answers are shown as if typed,
 *  so that what was printed reads as it was typed. Ctrl-C and Ctrl-D end the lines. */
export function askLines(input: NodeJS.ReadStream, output: NodeJS.WriteStream): Asker {
  const terminal = input.isTTY === true && output.isTTY === true;
  const reader = createInterface({
    input,
    output,
    terminal,
    crlfDelay: Number.POSITIVE_INFINITY,
    historySize: 0,
  });
  const lines = reader[Symbol.asyncIterator]();
  let closed = false;
  reader.once('close', () => {
    closed = true;
  });
  return {
    async ask(prompt) {
      // Only a terminal's reader redraws its prompt, and a pipe's reader is closed while its lines still wait.
      if (terminal && !closed) {
        reader.setPrompt(prompt);
        reader.prompt();
      } else {
        output.write(prompt);
      }
      const { value, done } = await lines.next();
      if (done) output.write('\n');
      else if (input.isTTY !== true) output.write(`${value}\n`);
      return done ? null : value;
    },
    close: () => reader.close(),
  };
}
