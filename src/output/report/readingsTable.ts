import { formatNumber } from '../../units/index.ts';
import { decimal, escapeText } from '../drawing/index.ts';
import { jawName } from '../sheet/calliperPictogram.ts';
import { sentence } from '../words/index.ts';
import type { ReportInput, ReportReading } from './reportInput.ts';

/** What was read, as typed, and how well each size is known by it. */
export function readingsTable({ readings, callipers }: ReportInput): string {
  if (readings.length === 0) return '';
  const { name, scale, resolution, zero, landWidth } = callipers;
  return `<section aria-labelledby="readings">
<h2 id="readings">What was read</h2>
<p class="key">${escapeText(sentence(`${name}: ${scale}, step ${decimal(resolution)} mm, closed they show ${decimal(zero)} mm, flat of the small jaws ${decimal(landWidth)} mm`))} Readings stand as typed; the value is corrected for what the closed jaws show. It lies within give or take U of the true size in 95 of 100 cases; U is k times the standard uncertainty (JCGM 100), n the number of readings.</p>
<table class="readings">
<thead><tr><th scope="col">Reading</th><th scope="col">As typed</th><th scope="col" class="number">Value, mm</th><th scope="col" class="number">U</th><th scope="col" class="number">k</th><th scope="col" class="number">n</th></tr></thead>
<tbody>
${readings.map(row).join('\n')}
</tbody>
</table>
</section>`;
}

function row({ id, name, jaw, typed, dimension }: ReportReading): string {
  const taken = dimension === null ? 'left out' : 'left out; the usual size is taken';
  const remarks = (dimension?.remarks ?? []).map(
    (remark) => `<span class="tip">${escapeText(sentence(remark.sentence))}</span>`,
  );
  const told =
    typed.length === 0
      ? `<span class="tip">${taken}</span>`
      : typed.map((text) => `<span class="typed">${escapeText(text)}</span>`).join(' ');
  // The head of the column says mm.
  const unit = dimension === null || ['mm', '1'].includes(dimension.unit) ? '' : ` ${dimension.unit}`;
  const numbers =
    dimension === null
      ? ['', '', '', '']
      : [
          `${formatNumber(dimension.value, dimension.u)}${unit}`,
          `&#177; ${formatNumber(dimension.U, dimension.u)}${unit}`,
          formatNumber(dimension.k),
          String(typed.length === 0 ? 0 : dimension.n),
        ];
  return `<tr id="reading-${escapeText(id)}">
<th scope="row"><b>${escapeText(name)}</b><span class="tip">${jawName[jaw]}</span>${remarks.join('')}</th>
<td class="as-typed">${told}</td>
${numbers.map((text, k) => `<td class="number" data-label="${['value', 'U', 'k', 'n'][k]}">${text}</td>`).join('\n')}
</tr>`;
}
