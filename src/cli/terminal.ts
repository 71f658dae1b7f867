import pc from 'picocolors';

export { columns, wrapped } from '../output/words/index.ts';

/** How a text may look where it goes. */
export interface Looks {
  /** Colours and weights; plain text where there is no terminal or NO_COLOR is set. */
  readonly paint: ReturnType<typeof pc.createColors>;
  /** Characters a line may have before it is broken; Infinity where nobody looks at lines. */
  readonly width: number;
}

/** Lines longer than this are hard to follow at arm's length, however wide the window is. */
const WIDEST = 110;
const NARROWEST = 40;

/** The looks of a stream: coloured and broken into lines on a terminal, neither in a pipe or file. */
export function looksOf(stream: NodeJS.WriteStream, environment: NodeJS.ProcessEnv = process.env): Looks {
  const terminal = stream.isTTY === true;
  // https://no-color.org: any value that is not empty.
  const coloured = terminal && !environment.NO_COLOR && environment.TERM !== 'dumb';
  return {
    paint: pc.createColors(coloured),
    width: terminal ? Math.min(WIDEST, Math.max(NARROWEST, stream.columns || 80)) : Number.POSITIVE_INFINITY,
  };
}
