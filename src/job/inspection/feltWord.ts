import type { InterfaceKind } from '../../family/interface.ts';
import type { FeltWord, TrialRecord } from '../trialSchema.ts';
import type { Meeting } from './meetings.ts';

const WORDS: readonly FeltWord[] = ['tight', 'right', 'loose'];
/** A step is short where others are tight. */
const STEP_WORDS: Readonly<Record<string, FeltWord>> = { short: 'tight', right: 'right', long: 'loose' };

/** The words in which a meeting surface of this kind feels, for prompts and refusals. */
export const feltWords = (kind: InterfaceKind): readonly string[] =>
  kind === 'step' ? Object.keys(STEP_WORDS) : WORDS;

/** How something felt, from what a person typed: tight, right or loose, of a step also short or long; "too" before it, a
 *  beginning of a word and capital letters do no harm. Undefined for anything else.
 *  @example feltWord('too tight', 'post') // => 'tight' */
export function feltWord(text: string, kind: InterfaceKind): FeltWord | undefined {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/^too\s+/, '');
  if (plain === '') return undefined;
  const words: readonly (readonly [string, FeltWord])[] = [
    ...WORDS.map((word) => [word, word] as const),
    ...(kind === 'step' ? Object.entries(STEP_WORDS) : []),
  ];
  const exact = words.find(([word]) => word === plain)?.[1];
  const meant = new Set(words.filter(([word]) => word.startsWith(plain)).map(([, felt]) => felt));
  return exact ?? (meant.size === 1 ? [...meant][0] : undefined);
}

/** A feeling in the words of its kind: a step is short, not tight.
 *  @example spokenWord('loose', 'step') // => 'long' */
export const spokenWord = (word: FeltWord, kind: InterfaceKind): string =>
  kind === 'step' ? Object.entries(STEP_WORDS).find(([, felt]) => felt === word)![0] : word;

/** Interfaces that a feeling said of several at once is about, ids as in the result. What felt right was right all over. What
 *  felt tight or loose was so in one size at least: on each part the one that was expected nearest to that end of its
 *  window, in its own doubts; by what was read of the print where that was read (`read`). Empty where no size has such an
 *  end. */
export function feltOf(
  ids: readonly string[],
  word: FeltWord,
  meetings: readonly Meeting[],
  { sizes }: Pick<TrialRecord, 'sizes'>,
  read: Readonly<Record<string, { readonly value: number; readonly u: number }>> = {},
): readonly string[] {
  if (word === 'right' || ids.length === 1) return ids;
  const room = (id: string): number => {
    const size = sizes[id];
    const end = size?.window[word === 'tight' ? 0 : 1];
    if (size === undefined || end === null || end === undefined) return Infinity;
    const { printer, machine, spread } = size.doubt;
    const { value, u } = read[id] ?? { value: size.clearance, u: Math.hypot(printer, machine, spread) };
    return (word === 'tight' ? value - end : end - value) / u;
  };
  const parts = new Map<string, string[]>();
  for (const { id, part } of meetings)
    if (ids.includes(id)) parts.set(part.member.id, [...(parts.get(part.member.id) ?? []), id]);
  return [...parts.values()].flatMap((group) => {
    const [nearest] = [...group].sort((a, b) => room(a) - room(b));
    return nearest === undefined || room(nearest) === Infinity ? [] : [nearest];
  });
}
