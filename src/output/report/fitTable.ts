import { formatNumber } from '../../units/index.ts';
import { escapeText } from '../drawing/index.ts';
import { clearanceWindow, percent } from '../words/index.ts';
import { balloonLink } from './marks.ts';
import type { ReportFit, ReportInput } from './reportInput.ts';
import { windowBar } from './windowBar.ts';

/** Causes of doubt named under a fit. */
const NAMED = 2;

/** Where part and machine meet, how large each is, and where the clearance lies in its window. */
export function fitTable({ fits }: ReportInput): string {
  if (fits.length === 0) return '';
  return `<section aria-labelledby="fit">
<h2 id="fit">How it meets the machine</h2>
<p class="key">Sizes in mm. The frame is the window of clearance that feels right, hatched left of it is too tight and right of it too loose; dashed, no clearance at all. The mark is the clearance expected, the line through it twice its standard uncertainty to either side: a disc where all of that is inside, a triangle where a part is not, a cross where the mark itself is outside.</p>
<table class="fits">
<thead><tr><th scope="col">No.</th><th scope="col">Where they meet</th><th scope="col" class="number">Machine</th><th scope="col" class="number">Draw</th><th scope="col" class="number">Prints at</th><th scope="col" class="number">Clearance</th><th scope="col">Window</th><th scope="col" class="number">Chance</th></tr></thead>
<tbody>
${fits.map(row).join('\n')}
</tbody>
</table>
</section>`;
}

function row(fit: ReportFit): string {
  const doubt = fit.shares
    .filter(({ share }) => share >= 0.005)
    .slice(0, NAMED)
    .map(({ label, share }) => `${label} ${percent(share)}`)
    .join('; ');
  return `<tr id="fit-${escapeText(fit.id)}">
<th scope="row">${fit.number === null ? '' : balloonLink(fit.number)}</th>
<td class="what"><b>${escapeText(fit.name)}</b>${doubt === '' ? '' : `<span class="tip">doubt: ${escapeText(doubt).replaceAll(' %', '&#160;%')}</span>`}</td>
<td class="number" data-label="machine">${formatNumber(fit.host)}</td>
<td class="number" data-label="draw">${formatNumber(fit.drawn)}</td>
<td class="number" data-label="prints at">${formatNumber(fit.predicted)}</td>
<td class="number" data-label="clearance">${formatNumber(fit.clearance)} <span class="give">&#177; ${formatNumber(2 * fit.u)}</span></td>
<td class="window" data-label="window">${windowBar(fit)}<span>${clearanceWindow(fit.window)}</span></td>
<td class="number" data-label="chance">${percent(fit.chance)}</td>
</tr>`;
}
