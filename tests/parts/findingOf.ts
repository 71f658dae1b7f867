import type { Finding } from '../../src/check/finding.ts';
import type { MakeResult } from '../../src/job/result.ts';

/** The finding of that id. Throws `RangeError` where there is none, so that no test passes on nothing. */
export function findingOf({ findings }: Pick<MakeResult, 'findings'>, id: string): Finding {
  const found = findings.find((one) => one.id === id);
  if (!found) throw new RangeError(`no finding ${id} among ${findings.map((one) => one.id).join(', ')}`);
  return found;
}
