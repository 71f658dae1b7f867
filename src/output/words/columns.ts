/** Rows of cells as lines of columns; every column as wide as its widest cell, two blanks between.
 *  @example columns([['a', 'bc'], ['def', 'g']]) // => ['a    bc', 'def  g'] */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, k) => Math.max(...rows.map((row) => row[k]!.length)));
  return rows.map((row) =>
    row
      .map((cell, k) => cell.padEnd(widths[k]!))
      .join('  ')
      .trimEnd(),
  );
}
