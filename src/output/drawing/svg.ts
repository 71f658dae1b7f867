import type { Vec2 } from '../../solid/vector.ts';
import type { LineStyle } from './lineType.ts';
import { CAPITAL } from './textWidth.ts';
import type { Box } from './view.ts';

/** A number as it stands in a drawing: three decimals, no more digits than it needs, no negative zero. */
export function decimal(value: number): string {
  const text = value.toFixed(3).replace(/\.?0+$/, '');
  return text === '-0' || text === '' ? '0' : text;
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that means itself in HTML, SVG and in a quoted attribute. Control characters, which neither may hold,
 *  become the replacement character. */
export const escapeText = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to be kept out
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd')
    .replace(/[&<>"']/g, (c) => entities[c]!);

/** Path data; drawing coordinates have y up, SVG has y down. `closed` contours end with Z. */
export function pathData(lines: Iterable<readonly Readonly<Vec2>[]>, closed = false): string {
  const parts: string[] = [];
  for (const line of lines) {
    const points = line.map(([x, y]) => `${decimal(x)} ${decimal(-y)}`);
    const ring = !closed && points.length > 3 && points[0] === points.at(-1);
    if (ring) points.pop();
    parts.push(`M${points.join('L')}${closed || ring ? 'Z' : ''}`);
  }
  return parts.join('');
}

/** Colours of paper and ink by day. */
export const ink = { paper: '#f6f4ee', ink: '#1b2430', accent: '#1f5fa8', faint: '#7b828b' } as const;

/** How each kind of mark is coloured. Presentation attributes, not a style sheet: they need no permission from a
 *  content security policy, and a page's own style rules for the class of the same name win over them. */
const paint = {
  part: `fill="none" stroke="${ink.ink}"`,
  machine: `fill="none" stroke="${ink.faint}"`,
  hidden: `fill="none" stroke="${ink.ink}"`,
  centre: `fill="none" stroke="${ink.ink}"`,
  dimension: `fill="none" stroke="${ink.ink}"`,
  frame: `fill="none" stroke="${ink.ink}"`,
  ring: `fill="none" stroke="${ink.ink}"`,
  'part-fill': `fill="${ink.accent}" fill-opacity="0.14"`,
  'machine-fill': `fill="${ink.ink}" fill-opacity="0.05"`,
  arrow: `fill="${ink.ink}"`,
  touch: `fill="${ink.accent}"`,
  balloon: `fill="#fff" stroke="${ink.ink}"`,
  number: `fill="${ink.ink}" font-weight="600"`,
  words: `fill="${ink.ink}"`,
  label: `fill="${ink.faint}"`,
} as const satisfies Readonly<Record<string, string>>;
export type Mark = keyof typeof paint;

const marked = (mark: Mark): string => `class="${mark}" ${paint[mark]}`;

/** Lines of one style as one path; empty text for none. */
export function strokes(lines: readonly (readonly Readonly<Vec2>[])[], style: LineStyle, mark: Mark): string {
  if (lines.length === 0) return '';
  const dashes = style.dashes.length > 0 ? ` stroke-dasharray="${style.dashes.map(decimal).join(' ')}"` : '';
  return `<path ${marked(mark)} stroke-width="${decimal(style.width)}"${dashes} d="${pathData(lines)}"/>`;
}

/** A filled region without border, by the non-zero rule. */
export const filled = (contours: readonly (readonly Readonly<Vec2>[])[], mark: Mark): string =>
  contours.length === 0 ? '' : `<path ${marked(mark)} d="${pathData(contours, true)}"/>`;

/** Circle of `radius` mm; outlined when `width` is given. */
export function disc(at: Readonly<Vec2>, radius: number, mark: Mark, width?: number): string {
  const line = width === undefined ? '' : ` stroke-width="${decimal(width)}"`;
  return `<circle ${marked(mark)}${line} cx="${decimal(at[0])}" cy="${decimal(-at[1])}" r="${decimal(radius)}"/>`;
}

interface TextOptions {
  /** Height of a capital, mm (ISO 3098: 2.5, 3.5, 5, 7 ...). */
  readonly height: number;
  readonly mark: Mark;
  readonly anchor?: 'start' | 'middle' | 'end';
}

/** Text whose capitals stand midway about `at`. */
export function text(
  at: Readonly<Vec2>,
  words: string,
  { height, mark, anchor = 'middle' }: TextOptions,
): string {
  const size = decimal(height / CAPITAL);
  return `<text ${marked(mark)} x="${decimal(at[0])}" y="${decimal(-at[1] + height / 2)}" font-size="${size}" text-anchor="${anchor}">${escapeText(words)}</text>`;
}

/** Faces that are on every desk; nothing is fetched. */
export const fontStack = 'system-ui, Segoe UI, Roboto, Helvetica Neue, DejaVu Sans, Arial, sans-serif';

/** A drawing as SVG text: a millimetre in it is a millimetre on paper. `title` is what a screen reader says. */
export function svgDocument({ min, max }: Box, title: string, body: readonly string[]): string {
  const [width, height] = [decimal(max[0] - min[0]), decimal(max[1] - min[1])];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${width}mm" height="${height}mm" viewBox="${decimal(min[0])} ${decimal(-max[1])} ${width} ${height}" stroke-linejoin="round" font-family="${fontStack}">`,
    `<title>${escapeText(title)}</title>`,
    ...body.filter((part) => part !== ''),
    '</svg>',
  ].join('\n');
}
