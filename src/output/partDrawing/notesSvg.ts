import type { Vec2 } from '../../solid/vector.ts';
import { decimal, dimensioning, fittedText, text } from '../drawing/index.ts';
import { RULE, ruleMarks } from '../sheet/checkRule.ts';
import { TITLE_WIDTH } from './paper.ts';

/** Height of the notes with the rule, mm. */
export const NOTES_HEIGHT = 19;
const LINE = 4.4;

/** Notes and, to their right, the rule that tells whether the sheet was printed at full size; `corner` is their lower left one. */
export function notesSvg(lines: readonly string[], [x, y]: Readonly<Vec2>): string[] {
  const rule: Vec2 = [x + TITLE_WIDTH - RULE - 6, y + 8];
  const room = TITLE_WIDTH - RULE - 14;
  const top = y + NOTES_HEIGHT - 3.5;
  const note = (words: string, at: Vec2, width: number): string =>
    text(at, fittedText(words, dimensioning.figure, width), {
      ...{ height: dimensioning.figure, anchor: 'start' },
      mark: 'words',
    });
  return [
    ...lines.map((words, k) => note(words, [x + 1.5, top - k * LINE], room)),
    `<g class="rule" transform="translate(${decimal(rule[0])} ${decimal(-rule[1])})">`,
    ...ruleMarks(dimensioning.figure),
    '</g>',
    note(`must measure ${RULE} mm`, [rule[0], y + 2], RULE + 4),
  ];
}
