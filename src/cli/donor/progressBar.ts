import { SingleBar } from 'cli-progress';

/** Files smaller than this are read before anybody could look, bytes. */
const WORTH_SHOWING = 5 * 1024 * 1024;

/** Shows how far reading is, on one line of a terminal; nothing in a pipe or for short work. */
export function progressBar(bytes: number): {
  readonly update: (share: number) => void;
  readonly stop: () => void;
} {
  if (bytes < WORTH_SHOWING) return { update: () => {}, stop: () => {} };
  const bar = new SingleBar({
    format: '  reading  {bar} {percentage} %',
    barCompleteChar: '#',
    barIncompleteChar: '.',
    clearOnComplete: true,
    hideCursor: true,
    stream: process.stderr,
  });
  bar.start(100, 0);
  return { update: (share) => bar.update(Math.round(100 * share)), stop: () => bar.stop() };
}
