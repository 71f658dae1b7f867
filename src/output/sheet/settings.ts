import type { Family } from '../../family/family.ts';
import type { Values } from '../../family/values.ts';
import { decimal, escapeText } from '../drawing/index.ts';

/** What may be chosen and set, each with what holds when nothing is said. Empty text when the family leaves
 *  nothing open. */
export function settings(of: Family, values: Values): string {
  const choices = Object.entries(of.choices).map(
    ([key, { name, options, normal, tip }]) => `<tr>
<th scope="row">${escapeText(name)}</th>
<td>${options.map((option) => optionMark(option, option === (values.choices[key] ?? normal))).join(' ')}</td>
<td class="tip">${escapeText(tip)}</td></tr>`,
  );
  const normal = of.normalSizes(values);
  const sizes = Object.entries(of.sizes).map(([key, { name, from, to, unit, tip }]) => {
    const value = normal[key];
    const usual = value !== undefined && Number.isFinite(value) ? decimal(value) : 'by the readings';
    return `<tr>
<th scope="row">${escapeText(name)}</th>
<td>${usual} <span class="tip">(${decimal(from)} to ${decimal(to)}${unit === 'mm' ? ' mm' : ''})</span></td>
<td class="tip">${escapeText(tip)}</td></tr>`;
  });
  const texts = Object.entries(of.texts).map(
    ([key, { name, longest, tip }]) => `<tr>
<th scope="row">${escapeText(name)}</th>
<td>${escapeText(values.texts?.[key] || 'nothing')} <span class="tip">(up to ${longest} characters)</span></td>
<td class="tip">${escapeText(tip)}</td></tr>`,
  );
  const table = (title: string, rows: readonly string[]): string =>
    rows.length === 0
      ? ''
      : `<div><h2>${title}</h2><table class="settings"><tbody>${rows.join('\n')}</tbody></table></div>`;
  return table('Choices', choices) + table('Sizes you may set', sizes) + table('Words you may set', texts);
}

const optionMark = (option: string, taken: boolean): string =>
  `<span class="option">${taken ? '&#9632;' : '&#9633;'} ${escapeText(option)}</span>`;
