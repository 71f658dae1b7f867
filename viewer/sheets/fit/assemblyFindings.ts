import type { Finding } from '../../../src/check/finding.ts';
import { type Numbered, numbered } from '../../../src/output/report/numbered.ts';

type Told = Numbered<Finding>;

/** What putting the part in one way asks of part and machine, and the ways that are not taken; `route` is the id of the way
 *  in the result. Strain is that of the print, not of the drawing. */
export function assemblyFindings(
  findings: readonly Finding[],
  route: string,
): { readonly asked: readonly Told[]; readonly others: readonly Told[] } {
  const all = numbered(findings);
  const ways = all.filter(({ id }) => /(^|\.)route\./.test(id));
  const asked = all.filter(({ id }) => /(^|\.)(push|pull|strain)\./.test(id) && !id.endsWith('.drawn'));
  const own = ({ id }: Told) => id.endsWith(`.${route}`) || id === `route.${route}`;
  return { asked: [...asked, ...ways.filter(own)], others: ways.filter((way) => !own(way)) };
}
