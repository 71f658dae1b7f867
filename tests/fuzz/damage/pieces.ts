import fc from 'fast-check';

/** A change of a text that is made of pieces: lines of a table, tags of XML, words of an STL. */
interface PieceChange {
  readonly what: 'put' | 'drop' | 'double' | 'swap' | 'before' | 'repeat';
  readonly at: number;
  readonly other: number;
  readonly odd: string;
}

/** About as large as one piece may become, characters: repeated again and again it would fill the memory before anybody read it. */
const LARGEST = 2 ** 21;

/** One to five changes with `odd` things put in place of pieces or before them. */
export const pieceChanges = (odd: readonly string[]): fc.Arbitrary<readonly PieceChange[]> =>
  fc.array(
    fc.record({
      what: fc.constantFrom<PieceChange['what']>(
        'put',
        'put',
        'put',
        'drop',
        'double',
        'swap',
        'before',
        'repeat',
      ),
      at: fc.nat(),
      other: fc.nat(),
      odd: fc.constantFrom(...odd),
    }),
    { minLength: 1, maxLength: 5 },
  );

/** The text with changes to what `piece`, a global pattern, finds in it. */
export function rearranged(text: string, piece: RegExp, list: readonly PieceChange[]): string {
  const pieces = [...text.matchAll(piece)].map((match) => ({ at: match.index, text: match[0] }));
  if (pieces.length === 0) return text;
  const now = pieces.map((each) => each.text);
  for (const { what, at, other, odd } of list) {
    const [k, n] = [at % now.length, other % now.length];
    const [here, there] = [now[k]!, now[n]!];
    if (what === 'put') now[k] = odd;
    else if (what === 'drop') now[k] = '';
    else if (what === 'double') now[k] = here + here;
    else if (what === 'before') now[k] = odd + here;
    else if (what === 'repeat')
      now[k] = here.repeat(Math.min(1 + (other % 400), Math.ceil(LARGEST / (here.length || 1))));
    else [now[k], now[n]] = [there, here];
  }
  let [whole, from] = ['', 0];
  pieces.forEach(({ at, text: before }, k) => {
    whole += text.slice(from, at) + now[k];
    from = at + before.length;
  });
  return whole + text.slice(from);
}
