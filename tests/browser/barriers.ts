import axe from 'axe-core';
import type { Page } from 'playwright-core';

/** What axe-core finds against the success criteria of WCAG 2.0 to 2.2, levels A and AA
 *  (https://github.com/dequelabs/axe-core/blob/develop/doc/rule-descriptions.md). */
const all = { type: 'tag' as const, values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] };
const contrast = { type: 'rule' as const, values: ['color-contrast'] };

/** Barriers on the page as it stands: one line each, with the rule, where it is and what it is; none where all is well.
 *  `colours` looks at contrast alone. */
export async function barriers(page: Page, colours = false): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe.source);
  return page.evaluate(
    async (runOnly) => {
      const { axe } = globalThis as unknown as { axe: typeof import('axe-core') };
      const { violations } = await axe.run(document, {
        runOnly,
        resultTypes: ['violations'],
      });
      return violations.flatMap(({ id, impact, nodes }) =>
        nodes.map(({ target, any, all, none }) => {
          const why = [...any, ...all, ...none].map(({ message }) => message).join('; ');
          return `${id} (${impact}) at ${target.join(' ')}: ${why}`;
        }),
      );
    },
    colours ? contrast : all,
  );
}
