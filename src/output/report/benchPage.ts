import { formatNumber } from '../../units/index.ts';
import { escapeText } from '../drawing/index.ts';
import { duration, sentence, significant } from '../words/index.ts';
import { balloonLink, mark } from './marks.ts';
import { grave, type NumberedFinding, numbered } from './numbered.ts';
import { bedPicture } from './pictures.ts';
import { greatestShown, leastShown, printLimits } from './printLimits.ts';
import type { ReportFit, ReportInput } from './reportInput.ts';

/** What is done at the bench: print it, measure the print, put it in. */
export const benchPage = (
  input: ReportInput,
  sharpness: number,
): string => `<section class="bench" aria-labelledby="print">
<h2 id="print">1. Print it</h2>
${notYet(numbered(input.findings))}${printAdvice(input, sharpness)}
</section>
${measurePrint(input)}
${putIn(input)}`;

/** What would be printed in vain. */
function notYet(findings: readonly NumberedFinding[]): string {
  const failing = findings.filter(({ verdict }) => verdict === 'fails');
  if (failing.length === 0) return '';
  return `<p class="say">${mark('fails')}<span><b>Not yet:</b> put right first what fails${places(failing)}</span></p>
`;
}

function printAdvice(input: ReportInput, sharpness: number): string {
  const { parts } = input;
  const findings = grave(numbered(input.findings));
  const pictures = parts.map((part, k) => {
    const own = findings.filter(({ part: of }) => of === k || (of === null && parts.length === 1));
    const size =
      parts.length > 1 ? `${extentsOf(part.extents)}, ${significant(part.mass)} g` : extentsOf(part.extents);
    const caption = [part.name, size].filter((text) => text !== '').join(': ');
    return `<figure>
${bedPicture(part, own, `${[input.family.title, part.name].filter((text) => text !== '').join(', ')}, as it lies on the bed`, sharpness)}
<figcaption>${escapeText(caption)}</figcaption>
</figure>`;
  });
  return `<div class="printing${parts.length > 1 ? ' several' : ''}">
<table class="advice"><tbody>
${adviceRows(input)
  .map(([name, value]) => `<tr><th scope="row">${name}</th><td>${value}</td></tr>`)
  .join('\n')}
</tbody></table>
<div class="figures count-${Math.min(parts.length, 4)}">
${pictures.join('\n')}
</div>
</div>`;
}

const extentsOf = (extents: readonly number[]): string =>
  `${extents.map((extent) => formatNumber(extent)).join(' x ')} mm`;

function adviceRows(input: ReportInput): [string, string][] {
  const { print, printer, quantity, parts, material } = input;
  const [mass, all] = [print.mass, quantity * print.mass].map((grams) => `${significant(grams)} g`);
  const each = parts.length > 1 ? `a set of ${parts.length}` : 'each';
  return [
    ['Lay', `${escapeText(sentence(print.lay))} As it lies in the file, at 100 %, not turned.`],
    [
      'Layers',
      `${print.layers} of ${significant(printer.layer)} mm, the first one ${significant(printer.firstLayer)} mm; lines ${significant(printer.lineWidth)} mm wide`,
    ],
    [
      'Filling',
      'Solid: infill 100 %, or as many walls as fill it. Strain, force and mass here are those of solid plastic; a hollow print is weaker.',
    ],
    ['Support', supportOf(numbered(input.findings))],
    ['Hold on the bed', holdOf(numbered(input.findings))],
    ['Corrections', corrections(input)],
    ['Material', `${escapeText(material)}, ${quantity === 1 ? mass : `${mass} ${each}, ${all} together`}`],
    [
      'Time',
      `About ${duration(quantity * print.minutes)}${quantity === 1 ? '' : ` for all ${quantity}`}, heating up not counted. Rough: ${escapeText(print.method)}.`,
    ],
  ];
}

/** Findings by the name of their check, whichever part they are about. */
const of = (findings: readonly NumberedFinding[], ...checks: readonly string[]): readonly NumberedFinding[] =>
  findings.filter(({ id }) => checks.some((check) => id === check || id.endsWith(`.${check}`)));

const places = (findings: readonly NumberedFinding[]): string =>
  findings.length === 0
    ? ''
    : ` <span class="places">${findings.map(({ number }) => balloonLink(number)).join(' ')}</span>`;

function supportOf(findings: readonly NumberedFinding[]): string {
  const hanging = of(findings, 'overhang', 'bridge');
  const wanting = hanging.filter(({ verdict }) => verdict !== 'holds');
  return wanting.length === 0
    ? `None: what hangs over prints clean on this printer${places(hanging)}`
    : `${mark('caution')} Needed as it lies; or lay it another way${places(wanting)}`;
}

function holdOf(findings: readonly NumberedFinding[]): string {
  const holding = of(findings, 'contact', 'tip');
  const wanting = holding.filter(({ verdict }) => verdict !== 'holds');
  return wanting.length === 0
    ? `No brim and no raft: it holds and stands by itself${places(holding)}`
    : `${mark('caution')} It wants a brim, or another lay; a brim comes off clean before anything is measured${places(wanting)}`;
}

function corrections({ printer, print }: ReportInput): string {
  const [told, allowed] =
    printer.calibrated === null
      ? ['None that change sizes', 'what such printers usually do']
      : [
          'The very settings the coupon was printed with, and none besides that change sizes',
          'what this printer does',
        ];
  const relieved = print.relieved ? '; the spread of the first layer is drawn in already' : '';
  return `${told}: the sizes in the file allow for ${allowed}${relieved}.`;
}

function measurePrint({ fits, again }: ReportInput): string {
  if (fits.length === 0) return '';
  const rows = fits.map((fit) => {
    const limits = printLimits(fit);
    return `<tr id="size-${escapeText(fit.id)}">
<th scope="row">${fit.number === null ? '' : balloonLink(fit.number)}</th>
<td class="what"><b>${escapeText(fit.name)}</b><span class="tip">${escapeText(howToRead(fit))}</span></td>
<td class="number" data-label="drawn">${formatNumber(fit.drawn)}</td>
<td class="number" data-label="expected">${formatNumber(fit.predicted)}</td>
<td class="number limits" data-label="may read">${limitWords(limits)}</td>
<td class="box-cell" data-label="reads"><span class="box"></span></td>
</tr>`;
  });
  return `<section class="bench" aria-labelledby="measure">
<h2 id="measure">2. Measure the print before it goes near the machine</h2>
<p>Let it cool for an hour and cut off strings. A print outside these sizes can crack what nobody sells: never force it.</p>
<table class="sizes">
<thead><tr><th scope="col">No.</th><th scope="col">Size of the print, mm</th><th scope="col" class="number">Drawn</th><th scope="col" class="number">Expected</th><th scope="col" class="number">May read</th><th scope="col">Reads</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
<p class="tip">${command('inspect', again.file)} takes these readings and says of each whether to go on, to rework it or to print again.</p>
</section>`;
}

/** A command of Fettle on the job. */
export const command = (name: string, file: string): string =>
  `<code>fettle ${name} ${escapeText(file)}</code>`;

function limitWords([least, greatest]: readonly [number, number]): string {
  if (!Number.isFinite(greatest)) return `from ${formatNumber(leastShown(least))}`;
  if (!Number.isFinite(least)) return `up to ${formatNumber(greatestShown(greatest))}`;
  const [lo, hi] = [leastShown(least), greatestShown(greatest)];
  // Narrower than the step of the callipers: the thousandths are all there is to say.
  if (lo > hi) return `${least.toFixed(3)} .. ${greatest.toFixed(3)}`;
  return `${formatNumber(lo)} .. ${formatNumber(hi)}`;
}

function howToRead({ kind, readTo }: Pick<ReportFit, 'kind' | 'readTo'>): string {
  switch (kind) {
    case 'post':
    case 'rib':
      return 'large jaws, over the outside';
    case 'bore':
    case 'slot':
      return 'small jaws, between the walls';
    case 'step':
      return {
        face: 'depth rod or large jaws, face to face',
        hollow: 'from the face to the middle of the hollow: read to its near wall, add half its width',
        centres: 'middle to middle: read over both, take one width off',
      }[readTo];
  }
}

function putIn({ assembly, again }: ReportInput): string {
  const steps =
    assembly === null
      ? '<p>No order of putting it in is stated for this part. By thumb, straight, without force.</p>'
      : `<p>${escapeText(sentence(assembly.name))}</p>
<ol>
${assembly.steps.map((step) => `<li>${escapeText(sentence(step))}</li>`).join('\n')}
</ol>`;
  return `<section class="bench put-in" aria-labelledby="put-in">
<h2 id="put-in">3. Put it in</h2>
${steps}
<p class="tip">The <a href="#mind">cautions on the first page</a> hold here. Afterwards ${command('trial', again.file)} keeps how it felt, and the next print is drawn with what that taught.</p>
</section>`;
}
