import { type Looks, looksOf } from './terminal.ts';

/** Where questions and remarks go. */
export interface Talk {
  readonly output: NodeJS.WriteStream;
  readonly looks: Looks;
  /** One line, as it is. */
  readonly say: (line: string) => void;
}

/** Talk on standard output, or beside it where the answer there is JSON. */
export function talkBeside(json: boolean | undefined): Talk {
  const output = json ? process.stderr : process.stdout;
  return { output, looks: looksOf(output), say: (line) => void output.write(`${line}\n`) };
}
