import type { Share } from '../../fit/types.ts';
import { decimal, escapeText } from '../drawing/index.ts';
import { percent } from '../words/index.ts';

/** Rows shown; what remains is one row more. */
const ROWS = 5;
/** Shares below this would only hide the others. */
const WORTH_SAYING = 0.005;
/** Full length of a bar, in its own units. */
const [WIDTH, HEIGHT] = [100, 10];

/** What the doubt rests on, the largest share first, each as a bar. */
export function shareBars(shares: readonly Share[]): string {
  const named = shares.filter(({ share }) => share >= WORTH_SAYING).slice(0, ROWS);
  if (named.length === 0) return '';
  const rest = 1 - named.reduce((sum, { share }) => sum + share, 0);
  const rows = rest >= WORTH_SAYING ? [...named, { label: 'everything else', share: rest }] : named;
  const longest = Math.max(...rows.map(({ share }) => share));
  return `<table class="shares">
<caption>What the doubt rests on</caption>
<tbody>
${rows
  .map(
    ({ label, share }) =>
      `<tr><th scope="row">${escapeText(label)}</th><td>${bar(share / longest)}</td><td class="number">${percent(share)}</td></tr>`,
  )
  .join('\n')}
</tbody>
</table>`;
}

const bar = (length: number): string =>
  `<svg class="share" aria-hidden="true" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" preserveAspectRatio="none"><rect width="${decimal(WIDTH * length)}" height="${HEIGHT}"/></svg>`;
