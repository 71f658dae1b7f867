type Verdict = 'holds' | 'caution' | 'fails';

/** Findings counted by their verdict. */
export interface FindingsCount {
  readonly holds: number;
  readonly caution: number;
  readonly fails: number;
}

export function countFindings(findings: readonly { readonly verdict: Verdict }[]): FindingsCount {
  const count = { holds: 0, caution: 0, fails: 0 };
  for (const { verdict } of findings) count[verdict]++;
  return count;
}

/** The gravest verdict there is. */
export const worstVerdict = ({ caution, fails }: FindingsCount): Verdict =>
  fails > 0 ? 'fails' : caution > 0 ? 'caution' : 'holds';

/** What the findings come to, in a sentence. */
export const findingsHeadline: Readonly<Record<Verdict, string>> = {
  fails: 'It will not do as it is.',
  caution: 'It may do; look at what is named below.',
  holds: 'Nothing stands against it.',
};

/** @example findingsSum({ holds: 14, caution: 1, fails: 0 }) // => '14 hold, 1 caution, none fails' */
export const findingsSum = ({ holds, caution, fails }: FindingsCount): string =>
  [
    `${holds} hold${holds === 1 ? 's' : ''}`,
    `${caution === 0 ? 'no' : caution} caution${caution === 1 ? '' : 's'}`,
    fails === 0 ? 'none fails' : `${fails} fail${fails === 1 ? 's' : ''}`,
  ].join(', ');
