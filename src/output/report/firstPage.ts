import { escapeText } from '../drawing/index.ts';
import { titleBlock } from '../sheet/titleBlock.ts';
import {
  countFindings,
  day,
  duration,
  findingsHeadline,
  findingsSum,
  measured,
  percent,
  sentence,
  worstVerdict,
} from '../words/index.ts';
import { balloonLink, mark } from './marks.ts';
import { grave, type NumberedFinding, numbered } from './numbered.ts';
import { machinePicture } from './pictures.ts';
import type { ReportInput } from './reportInput.ts';
import { shareBars } from './shareBars.ts';

/** Findings told on the first page, so that the cautions stay on it; all of them stand further on. */
const TOLD = 5;
/** Digits of the job's hash that tell jobs apart on paper. */
const SHORT_HASH = 12;
/** A note up to so long says what the part is for; a longer one goes where there is room. */
const SHORT_NOTE = 240;

/** Whether the job's note is short enough for the first page. */
export const isShortNote = (note: string): boolean => note.length <= SHORT_NOTE;

/** What it is for, what it looks like, whether it will fit, and what to mind: one sheet with its title block. */
export function firstPage(input: ReportInput, sharpness: number): string {
  const { again } = input;
  const note =
    again.note !== '' && isShortNote(again.note)
      ? `<p class="note" dir="auto">${escapeText(again.note)}</p>`
      : '';
  return `<header>
<h1 dir="auto">${escapeText(input.title)}</h1>
<p class="lead">${escapeText(sentence(`${input.family.title}: ${input.summary}`))}</p>
${note}
</header>
<div class="frame">
<div class="overview">
<div class="figures count-${Math.min(input.parts.length, 4)}">
${figures(input, sharpness)}
</div>
<section class="verdict" aria-labelledby="verdict">
<h2 id="verdict">Will it fit?</h2>
${verdict(input)}
</section>
</div>
${standsAgainst(numbered(input.findings))}
<section class="mind" aria-labelledby="mind">
<h2 id="mind">Mind</h2>
<ul>
${input.cautions.map((caution) => `<li>${mark('caution')}<span>${escapeText(sentence(caution))}</span></li>`).join('\n')}
</ul>
</section>
${titleBlock(titleFields(input))}
</div>`;
}

function figures({ parts, fits, family, findings }: ReportInput, sharpness: number): string {
  // What stands against it takes room from the picture on paper.
  const single = grave(numbered(findings)).length > 2 ? 'middling' : 'large';
  return parts
    .map((part, k) => {
      const own = fits.filter((fit) => fit.part === k);
      const hosts = part.hosts.map(({ name }) => name).join(', ');
      const what = [family.title, part.name].filter((text) => text !== '').join(', ');
      const alt = `${what}${hosts === '' ? '' : `, among ${hosts} of the machine`}`;
      return `<figure>
${machinePicture(part, own, alt, { shown: parts.length === 1 ? single : 'small', sharpness })}
<figcaption>${[part.name, hosts === '' ? '' : `around it: ${hosts}`]
        .filter((text) => text !== '')
        .map(escapeText)
        .join('; ')}</figcaption>
</figure>`;
    })
    .join('\n');
}

function verdict({ chance, shares, advice, printer, findings, changes }: ReportInput): string {
  const large =
    chance === null
      ? '<p class="chance"><b>Not known</b> <span>nothing was measured that it meets</span></p>'
      : `<p class="chance"><b>${percent(chance)}</b> <span>chance that ${changes.length > 0 ? 'the next print fits' : 'it fits the first time'}</span></p>`;
  const unknown =
    printer.calibrated === null
      ? `<p class="say">${mark('caution')}<span>Nobody has measured this printer. Sizes are drawn for what such printers usually do, and the chance says how far they differ.</span></p>`
      : '';
  const next =
    advice === null
      ? ''
      : `<p class="next"><b>Next:</b> ${escapeText(advice.sentence)}, about ${duration(advice.minutes)}. Then ${percent(advice.to)}.</p>`;
  return `<div>
${large}
${unknown}${headline(numbered(findings))}
${next}
</div>
${shareBars(shares)}`;
}

function headline(findings: readonly NumberedFinding[]): string {
  const count = countFindings(findings);
  const worst = worstVerdict(count);
  const sum = findingsSum(count).replace(' ', count.holds === 1 ? ' finding ' : ' findings ');
  return `<p class="say">${mark(worst)}<span><b>${findingsHeadline[worst]}</b> <a href="#findings">${sum}</a>.</span></p>`;
}

/** What fails and what wants looking at, in a line each. */
function standsAgainst(findings: readonly NumberedFinding[]): string {
  const all = grave(findings);
  if (all.length === 0) return '';
  const rows = all.slice(0, TOLD).map((finding) => {
    const number = measured(finding);
    const remedy = finding.remedy === '' ? '' : ` ${escapeText(sentence(finding.remedy))}`;
    return `<li>${mark(finding.verdict, true)}${balloonLink(finding.number)}<span><b>${escapeText(finding.title)}${number === '' ? '' : ` ${escapeText(number)}`}</b>${remedy}</span></li>`;
  });
  const more = all.length - rows.length;
  if (more > 0) rows.push(`<li class="more"><a href="#findings">and ${more} more</a></li>`);
  return `<section class="against" aria-labelledby="against">
<h2 id="against">What stands against it</h2>
<ul>
${rows.join('\n')}
</ul>
</section>`;
}

function titleFields({ title, quantity, material, printer, again }: ReportInput): [string, string][] {
  const known =
    printer.calibrated === null ? printer.name : `${printer.name}, calibrated ${day(printer.calibrated)}`;
  return [
    ['part', title],
    ['kind of sheet', 'Report'],
    ['quantity', `${quantity} off`],
    ['material', material],
    ['printer', known],
    ['job', again.hash.slice(0, SHORT_HASH)],
    ['licence', again.licence],
    ['passed on by', again.author],
  ];
}
