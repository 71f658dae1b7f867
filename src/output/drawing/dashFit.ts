import type { LineStyle } from './lineType.ts';

/** Dashes, long or short, no longer than this many times the line's width are dots. */
const DOT = 1;

/** The style with its dashes drawn out or pressed together so that a line of `length` mm begins and ends with a dash, as lines of broken
 *  type meet their ends (ISO 128-2:2020, from memory). What has no room for two dashes of a third of their length, or
 *  for more than one of a centre line, is drawn through.
 *  @example fittedDashes(lineType.hiddenEdge, 18).dashes // => [3, 0.75]: five dashes, four gaps */
export function fittedDashes(style: LineStyle, length: number): LineStyle {
  const [dash = 0, ...between] = style.dashes;
  if (dash === 0) return style;
  const gap = between.reduce((sum, part) => sum + part, 0);
  const dotted = between.some((part) => part <= DOT * style.width);
  const count = Math.max(dotted ? 1 : 2, Math.round((length + gap) / (dash + gap)));
  const fitted = (length - (count - 1) * gap) / count;
  if (count === 1) return { ...style, dashes: [] };
  if (fitted >= (2 / 3) * dash) return { ...style, dashes: [fitted, ...between] };
  // A short line: smaller dashes and gaps, in proportion, down to a third.
  const factor = length / (count * dash + (count - 1) * gap);
  return factor < 1 / 3
    ? { ...style, dashes: [] }
    : { ...style, dashes: style.dashes.map((part) => part * factor) };
}
