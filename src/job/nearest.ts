import { distance } from 'fastest-levenshtein';

/** The known name a mistyped one most likely meant, or undefined when none is near: at most a third of its letters
 *  wrong, two for short names. Case is ignored. */
export function nearest(given: string, known: readonly string[]): string | undefined {
  const ranked = known
    .map((name) => ({ name, wrong: distance(given.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.wrong - b.wrong);
  const [best] = ranked;
  return best && best.wrong <= Math.max(2, Math.floor(best.name.length / 3)) ? best.name : undefined;
}

/** What is allowed, for the end of a sentence: "one of a, b, c", led by the likely one. */
export function allowedNames(given: string, known: readonly string[]): string {
  const likely = nearest(given, known);
  const list = known.length === 0 ? 'none' : known.join(', ');
  return likely === undefined ? `one of ${list}` : `one of ${list}. Did you mean ${likely}?`;
}
