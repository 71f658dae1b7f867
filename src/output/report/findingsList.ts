import { escapeText } from '../drawing/index.ts';
import { measured, sentence, sideOf, significant, withUnit } from '../words/index.ts';
import { balloon, mark, verdictWord } from './marks.ts';
import { grave, type NumberedFinding, numbered } from './numbered.ts';
import type { ReportInput } from './reportInput.ts';

/** Every check that was made: in full what fails or wants looking at, in a table what holds. */
export function findingsList({ findings, parts }: ReportInput): string {
  const all = numbered(findings);
  const looked = grave(all);
  const holding = all.filter(({ verdict }) => verdict === 'holds');
  return `<section class="findings" aria-labelledby="findings">
<h2 id="findings">What was checked</h2>
<p class="key">Numbers are those of the pictures and of the terminal. Places are in mm from the corner of the part on the bed.</p>
${looked.map((finding) => inFull(finding, parts.length > 1)).join('\n')}
${holds(holding)}
</section>`;
}

function inFull(finding: NumberedFinding, named: boolean): string {
  const { number, verdict, title, because, source, remedy, at } = finding;
  const details = Object.entries(finding.details ?? {});
  const rows: (readonly [string, string])[] = [
    ['why', sentence(because)],
    ...(remedy === '' ? [] : [['do', sentence(remedy)] as const]),
    ['from', source],
    ...(at === null || named ? [] : [['where', at.map(oneDecimal).join(', ')] as const]),
    ...(details.length === 0 ? [] : [['besides', details.map(detail).join('; ')] as const]),
  ];
  return `<article class="finding ${verdict}" id="finding-${number}">
<h3>${balloon(number)}${mark(verdict)}<span>${escapeText(title)} <em>${verdictWord[verdict]}</em> <span class="measured">${escapeText(measured(finding))}</span></span></h3>
<dl>
${rows.map(([name, words]) => `<div class="${name}"><dt>${name}</dt><dd>${escapeText(words)}</dd></div>`).join('\n')}
</dl>
</article>`;
}

const oneDecimal = (mm: number): string => mm.toFixed(1).replace(/^-0\.0$/, '0.0');

const detail = ([name, value]: readonly [string, number | string]): string =>
  `${name}: ${typeof value === 'number' ? significant(value) : value}`;

function holds(findings: readonly NumberedFinding[]): string {
  if (findings.length === 0) return '';
  const sources = [...new Set(findings.map(({ source }) => source))];
  const rows = findings.map((finding) => {
    const { number, title, value, limit, unit, because, source } = finding;
    const side = sideOf(finding);
    return `<tr id="finding-${number}">
<th scope="row">${balloon(number)}</th>
<td class="what"><b>${escapeText(title)}</b><span class="tip">${escapeText(sentence(because))}</span></td>
<td class="number" data-label="found">${value === null ? '' : escapeText(withUnit(value, unit))}</td>
<td class="number" data-label="allowed">${side === null ? '' : escapeText(`${side} ${withUnit(limit!, unit)}`)}</td>
<td class="source" data-label="source"><a href="#source-${sources.indexOf(source) + 1}">S${sources.indexOf(source) + 1}</a></td>
</tr>`;
  });
  return `<h3 class="holding">${mark('holds')}<span>${findings.length === 1 ? 'This holds' : `These ${findings.length} hold`}</span></h3>
<table class="holds">
<thead><tr><th scope="col">No.</th><th scope="col">Checked</th><th scope="col" class="number">Found</th><th scope="col" class="number">Allowed</th><th scope="col">Source</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
<h3>Where the limits come from</h3>
<ol class="sources">
${sources.map((source, k) => `<li id="source-${k + 1}"><span>S${k + 1}</span> <span>${escapeText(source)}</span></li>`).join('\n')}
</ol>`;
}
