import { escapeText } from '../drawing/index.ts';
import { sentence } from '../words/index.ts';
import { checkRule, RULE } from './checkRule.ts';
import { type Figure, figures } from './figures.ts';
import { type NumberedReading, numberedReadings } from './numberedReadings.ts';
import { readingsTable } from './readingsTable.ts';
import { settings } from './settings.ts';
import type { SheetInput } from './sheetInput.ts';
import { style } from './style.ts';
import { titleBlock } from './titleBlock.ts';

/** The measuring sheet: one HTML page, to print on A4 or to read at the bench, that shows where each reading is
 *  taken, with which jaws and how often, and has room for the numbers. Drawings are to the scale stated under
 *  them, SVG in mm. Only readings that the choices ask for appear. No scripts, nothing fetched, all text escaped; the same
 *  input gives the same text. Throws what `family.callouts` and `family.normalSizes` throw, and `RangeError` when
 *  a part does not fit the paper at 1:100. */
export function sheetPage(input: SheetInput): string {
  const { family, values } = input;
  const readings = numberedReadings(family, values);
  const drawings = figures(input, readings);
  const read = input.readings ?? {};
  const title = escapeText(family.title);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}: what to measure</title>
<style>
${style}
</style>
</head>
<body>
<main>
<div class="drawing">
<header>
<h1>${title}: what to measure</h1>
<p class="lead">${escapeText(sentence(family.summary))} Each number on the drawing is one reading; the table takes them in the same order. Blue dots are where the jaws touch. ${drawnWith(readings, input)}</p>
</header>
<div class="frame">
<div class="figures">
${drawings.map(figureHtml).join('\n')}
</div>
${sheetTitle(input, drawings)}
</div>
</div>
<section class="measure">
<div class="first">
<div>
<h2>First the callipers</h2>
<p class="field"><i>Wiped clean and closed, the jaws show</i><u></u> mm</p>
<p class="field"><i>Smallest step of display or vernier</i><u></u> mm</p>
<p class="field"><i>Flat edge of the small jaws, measured with other callipers; 0 for knife edges</i><u></u> mm</p>
<p class="tip">Write each reading down as shown, do not correct it: that is done for you. Let go and start afresh between two readings of the same thing.</p>
</div>
<div class="rule">
<h2>Scale of this page</h2>
${checkRule()}
<p class="tip">This line must measure ${RULE} mm, blue mark to blue mark. If it does not, print again at 100 %, not fitted to the page.</p>
</div>
</div>
</section>
<section>
<h2>Readings</h2>
${readingsTable(readings, read)}
</section>
<section class="end">
${settings(family, values)}
</section>
</main>
</body>
</html>
`;
}

/** Tells whose sizes the drawings show. */
const drawnWith = (readings: readonly NumberedReading[], { values }: SheetInput): string =>
  readings.every(({ key, spec }) => values[key] === spec.typical)
    ? 'Drawn with typical sizes; yours differ.'
    : 'Drawn with sizes as measured.';

function figureHtml({ title, scale, svg }: Figure): string {
  return `<figure>
${svg}
<figcaption>${escapeText(title)}${scale ? ` <b>${scale}</b>` : ', not to scale'}</figcaption>
</figure>`;
}

/** What stands in the title block. */
function sheetTitle({ family }: SheetInput, drawings: readonly Figure[]): string {
  const scales = [...new Set(drawings.flatMap(({ scale }) => scale ?? []))].join(', ');
  const fields: readonly (readonly [string, string])[] = [
    ['part', family.title],
    ['kind of sheet', 'Measuring sheet'],
    ['scale', scales],
    ['lengths in', 'mm'],
    ['machine', ''],
    ['read by', ''],
    ['date', ''],
    ['family', `${family.id}, version ${family.version}`],
  ];
  return titleBlock(fields);
}
