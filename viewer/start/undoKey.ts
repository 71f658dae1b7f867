/** Of a key press what tells whether it is undo or redo. */
interface Press {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** Ctrl or Command with Z takes back, with Shift and Z or with Y does it again; null for every other key. With Alt it is
 *  a letter on some keyboards.
 *  @example undoKey({ key: 'Z', ctrlKey: true, metaKey: false, shiftKey: true, altKey: false }) // => 'redo' */
export function undoKey({ key, ctrlKey, metaKey, shiftKey, altKey }: Press): 'undo' | 'redo' | null {
  if (altKey || ctrlKey === metaKey) return null;
  const letter = key.toLowerCase();
  if (letter === 'z') return shiftKey ? 'redo' : 'undo';
  return letter === 'y' && !shiftKey ? 'redo' : null;
}
