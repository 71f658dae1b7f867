import { chanceOf } from '../chanceOf.ts';
import { membersOf, together } from '../members.ts';
import { plan } from '../plan.ts';
import type { Prepared } from '../prepare.ts';

/** Chance that all parts of a job fit the first time, 0..1, as `make` states it; null where nothing was measured that they
 *  meet. Throws `Refused` as `plan` does. */
export function partChance(prepared: Prepared): number | null {
  const parts = membersOf(prepared).map(({ member, prepared: one }) => ({ member, planned: plan(one) }));
  const chance =
    parts.length === 1
      ? parts[0]!.planned.chance.part
      : chanceOf(together(parts.map(({ member, planned: { problem } }) => ({ member, problem })))).part;
  return Number.isNaN(chance) ? null : chance;
}
