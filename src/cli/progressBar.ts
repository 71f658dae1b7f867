import { SingleBar } from 'cli-progress';

/** Long work under way, as a person sees it. */
export interface ProgressBar {
  /** How much is done, in the unit of the whole, and what else there is to say. */
  readonly update: (done: number, told?: string) => void;
  /** Takes the bar off the terminal. */
  readonly stop: () => void;
}

interface Work {
  /** What is being done, a word: "reading". */
  readonly what: string;
  /** All there is to do, in any unit, above 0. */
  readonly whole: number;
  /** What stands behind the bar: "{percentage} %", "{value} of {total}", and {told} for what `update` says. */
  readonly behind: string;
}

/** Columns that the bar leaves to the words around it. */
const WORDS = 46;

/** Shows how far a long work is, on one line of a terminal; nothing in a pipe. */
export function progressBar({ what, whole, behind }: Work): ProgressBar {
  const { stderr } = process;
  const bar = new SingleBar({
    format: `  ${what}  {bar} ${behind}`,
    barsize: Math.max(8, Math.min(40, (stderr.columns ?? 80) - WORDS)),
    barCompleteChar: '#',
    barIncompleteChar: '.',
    clearOnComplete: true,
    hideCursor: true,
    stream: stderr,
  });
  bar.start(whole, 0, { told: '' });
  return { update: (done, told = '') => bar.update(done, { told }), stop: () => bar.stop() };
}
