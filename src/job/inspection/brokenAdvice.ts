import type { Finding } from '../../check/finding.ts';
import { measured } from '../../output/words/index.ts';

/** What a broken thing has to do with the findings of the part. */
export interface BrokenAdvice {
  /** As the person said it. */
  readonly broken: string;
  /** The finding it concerns: place in the list from 1, and id; null where none can be told. */
  readonly finding: { readonly number: number; readonly id: string } | null;
  /** One sentence, no full stop. */
  readonly sentence: string;
}

/** Words of a bench that mean the same kind of thing, each with the beginnings of ids of findings about it. Common practice, no
 *  source. */
const KINDS: readonly { readonly words: readonly string[]; readonly findings: readonly RegExp[] }[] = [
  { words: ['layer', 'delaminated', 'peeled', 'split'], findings: [/(^|\.)layers\./] },
  {
    words: ['arm', 'lip', 'mouth', 'jaw', 'hook', 'nose', 'catch', 'snap', 'latch', 'tongue'],
    findings: [/(^|\.)strain\..*predicted$/, /(^|\.)arms\.(strain|root)$/, /(^|\.)strain\./],
  },
  { words: ['leg', 'stem', 'barb', 'prong'], findings: [/(^|\.)stem\.(strain|root)$/] },
  { words: ['plate', 'cover', 'front', 'face'], findings: [/(^|\.)finger\./] },
  { words: ['post', 'peg', 'pin', 'shaft'], findings: [/(^|\.)route$/, /(^|\.)wall$/] },
  { words: ['foot', 'pad', 'body', 'column'], findings: [/(^|\.)load$/, /(^|\.)pressure$/] },
  { words: ['wall', 'side', 'skin', 'shell', 'edge', 'rim'], findings: [/(^|\.)wall$/] },
  { words: ['soft', 'melted', 'warped', 'sagged'], findings: [/(^|\.)heat$/] },
];

/** Words for what belongs to the machine. */
const OLD = ['keycap', 'key', 'cap', 'socket', 'case', 'panel', 'machine', 'old', 'chassis', 'board'];

/** Which finding a broken thing concerns, and what to do: matched by the words said, kinds first, then the finding's own name.
 *  `findings` in the order of the result.
 *  @example brokenAdvice('arm of the mouth', findings).finding // => { number: 19, id: 'strain.mouth.predicted' } */
export function brokenAdvice(broken: string, findings: readonly Finding[]): BrokenAdvice {
  const said = wordsOf(broken);
  const old = said.some((word) => OLD.includes(word))
    ? 'if anything of the old machine gave way, stop here and try nothing more by force'
    : '';
  const finding = concerned(said, findings);
  if (finding === undefined) {
    const plain = 'no finding is about that; what broke is on record';
    return { broken, finding: null, sentence: old === '' ? plain : `${plain}; ${old}` };
  }
  const number = findings.indexOf(finding) + 1;
  const what = `finding ${number}, ${finding.title} ${measured(finding)}`.trimEnd();
  const todo =
    finding.verdict === 'holds'
      ? `${what}, was reckoned to hold: look for a weak bond between layers, a lay other than the one drawn for, and whether it was bent more than once`
      : `${what}, said so before${finding.remedy === '' ? '' : `: ${finding.remedy}`}`;
  return {
    broken,
    finding: { number, id: finding.id },
    sentence: old === '' ? todo : `${todo}; ${old}`,
  };
}

function concerned(said: readonly string[], findings: readonly Finding[]): Finding | undefined {
  for (const { words, findings: about } of KINDS) {
    if (!said.some((word) => words.includes(word))) continue;
    for (const pattern of about) {
      const found = worst(findings.filter(({ id }) => pattern.test(id)));
      if (found !== undefined) return found;
    }
  }
  // A clearance is no cause of a break.
  const strong = findings.filter(({ id }) => !/(^|\.)(clearance|gap|bed|sound|reading)/.test(id));
  return worst(
    strong.filter(({ title }) => wordsOf(title).some((word) => word.length > 3 && said.includes(word))),
  );
}

/** The one nearest to its limit, as a share of it. */
const worst = (findings: readonly Finding[]): Finding | undefined =>
  [...findings].sort((a, b) => roomOf(a) - roomOf(b))[0];

const roomOf = ({ margin, limit }: Finding): number =>
  margin === null || limit === null ? Infinity : margin / Math.max(Math.abs(limit), 1e-9);

/** Words in small letters, the s of a plural off. */
const wordsOf = (text: string): readonly string[] =>
  (text.toLowerCase().match(/\p{L}+/gu) ?? []).map((word) =>
    word.length > 3 ? word.replace(/s$/, '') : word,
  );
