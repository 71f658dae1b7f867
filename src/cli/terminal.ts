import pc from 'picocolors';

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

/** Breaks a plain text at its blanks into lines of at most `width` characters; a longer word stays whole.
 *  @example wrapped('one two three', 8) // => ['one two', 'three'] */
export function wrapped(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}

/** Rows of cells as lines of columns; every column as wide as its widest cell, two blanks between. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, k) => Math.max(...rows.map((row) => row[k]!.length)));
  return rows.map((row) =>
    row
      .map((cell, k) => cell.padEnd(widths[k]!))
      .join('  ')
      .trimEnd(),
  );
}
