import { formatNumber } from '../../units/index.ts';
import { escapeText } from '../drawing/index.ts';
import { sentence } from '../words/index.ts';
import { command } from './benchPage.ts';
import { isShortNote } from './firstPage.ts';
import type { ReportInput } from './reportInput.ts';

/** What was changed on a model, and what somebody needs to make the part again. */
export const remake = (input: ReportInput): string =>
  [refitted(input), again(input), notPromised].filter((part) => part !== '').join('\n');

/** What earlier prints taught; empty text when they changed nothing. */
export function earlierPrints({ changes }: ReportInput): string {
  if (changes.length === 0) return '';
  return `<section aria-labelledby="changes">
<h2 id="changes">What earlier prints changed</h2>
<table class="changes">
<thead><tr><th scope="col">What</th><th scope="col" class="number">Without them</th><th scope="col" class="number">Now</th><th scope="col">Why</th></tr></thead>
<tbody>
${changes
  .map(
    ({ what, before, after, why }) =>
      `<tr><th scope="row">${escapeText(what)}</th><td class="number" data-label="without them">${escapeText(before)}</td><td class="number" data-label="now">${escapeText(after)}</td><td>${escapeText(sentence(why))}</td></tr>`,
  )
  .join('\n')}
</tbody>
</table>
</section>`;
}

function refitted({ refits }: ReportInput): string {
  if (refits.length === 0) return '';
  const items = refits.map(({ by, exact, because }) => {
    const length = `${formatNumber(Math.abs(by))} mm ${by < 0 ? 'shorter' : 'longer'}`;
    const trace = exact ? 'leaves no trace' : 'leaves a trace';
    return `<li>${escapeText(sentence(`${length}, ${trace}: ${because}`))}</li>`;
  });
  return `<section class="refits" aria-labelledby="refits">
<h2 id="refits">What was changed on the model</h2>
<ul>
${items.join('\n')}
</ul>
</section>`;
}

function again(input: ReportInput): string {
  const { family, again: told, printer } = input;
  const rows = [
    ...told.settings.map(
      ({ name, value, told: byJob }) =>
        `<tr><th scope="row">${escapeText(name)}</th><td>${escapeText(value)}${byJob ? '' : ' <span class="tip">as usual</span>'}</td></tr>`,
    ),
  ];
  const note =
    told.note === '' || isShortNote(told.note)
      ? ''
      : `<p class="note" dir="auto">${escapeText(told.note)}</p>`;
  const profile =
    printer.calibrated === null ? '' : `, and the profile of ${escapeText(printer.name)} or where it lies`;
  const terms =
    told.licence === ''
      ? ''
      : ` Licence: ${escapeText(told.licence)}${told.author === '' ? '.' : `, ${escapeText(told.author)}.`}`;
  return `<section class="again" aria-labelledby="again">
<h2 id="again">To make it again</h2>
${note}
<p>${command('make', told.file)} draws the same part to the last byte, with Fettle ${escapeText(told.version)} and the same job. The job file holds every reading as typed${profile}. For another printer put its own profile into the job: sizes drawn for one printer do not fit off another.${terms}</p>
<table class="settings"><tbody>
<tr><th scope="row">part family</th><td>${escapeText(family.id)}, version ${family.version}</td></tr>
${rows.join('\n')}
<tr><th scope="row">job</th><td><code>${escapeText(told.hash)}</code> <span class="tip">SHA-256 of its content</span></td></tr>
</tbody></table>
</section>`;
}

const notPromised = `<section class="promise" aria-labelledby="promise">
<h2 id="promise">What is not promised</h2>
<ul>
<li>Chances rest on normal prints of a printer that has not changed since it was measured. They are no guarantee.</li>
<li>Material numbers are for printed specimens where a source gives them, and scatter by 20 % and more. Strains are short-term: creep under lasting load and wear are not computed.</li>
<li>Nothing here certifies a part. Where mains voltage, a picture tube, heat or a fire enclosure is near, an original or approved part fitted by a qualified person is the answer, and local rules decide.</li>
</ul>
</section>`;
