import { escapeText } from '../drawing/index.ts';

/** A title block (ISO 7200) of labelled fields, the first of them the name; those that somebody fills in by hand are empty. */
export function titleBlock(fields: readonly (readonly [string, string])[]): string {
  const cells = fields.map(
    ([label, value], k) =>
      `<div${k === 0 ? ' class="name"' : ''}><dt>${label}</dt><dd>${escapeText(value)}</dd></div>`,
  );
  return `<dl class="title-block">
${cells.join('\n')}
</dl>`;
}
