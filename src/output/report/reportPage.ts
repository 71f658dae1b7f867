import { escapeText } from '../drawing/index.ts';
import { benchPage } from './benchPage.ts';
import { findingsList } from './findingsList.ts';
import { firstPage } from './firstPage.ts';
import { fitTable } from './fitTable.ts';
import { readingsTable } from './readingsTable.ts';
import { earlierPrints, remake } from './remake.ts';
import type { ReportInput } from './reportInput.ts';
import { strictPolicy } from './strictPolicy.ts';
import { style } from './style.ts';

/** The report of a job: one HTML page that says what the part is for, whether it fits and what that rests on, how to print
 *  it, measure it and put it in, every check, and how to make it again. It fetches and runs nothing, reads on paper
 *  (A4), on a phone and in the dark; all text is escaped, and the same input gives the same text. Throws what
 *  `picture` throws. `sharpness` multiplies the pixels of its pictures each way: 1 for paper, less for a quick look. */
export const reportPage = (
  input: ReportInput,
  { sharpness = 1 }: { readonly sharpness?: number } = {},
): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${strictPolicy(style)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeText(input.title)}: report</title>
<style>${style}</style>
</head>
<body>
<nav aria-label="In this report"><a href="#verdict">Fit</a> <a href="#mind">Mind</a> <a href="#print">Print</a> <a href="#put-in">Put in</a> <a href="#findings">Checked</a> <a href="#again">Again</a></nav>
<main>
<div class="sheet">
${firstPage(input, sharpness)}
</div>
<div class="at-the-bench">
${benchPage(input, sharpness)}
</div>
<div class="in-detail">
${[fitTable(input), earlierPrints(input), readingsTable(input), findingsList(input), remake(input)].filter((part) => part !== '').join('\n')}
</div>
</main>
</body>
</html>
`;
