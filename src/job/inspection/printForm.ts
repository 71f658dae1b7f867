import type { Callout } from '../../family/callout.ts';
import type { Interface } from '../../family/interface.ts';
import type { Drawn } from '../../family/values.ts';
import { type FormPaper, type FormPart, formOf, type ReadingForm } from '../../output/readingForm/index.ts';
import { type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import { meshOf } from '../../solid/meshOf.ts';
import { realise } from '../../solid/realise.ts';
import { add, times } from '../../solid/vector.ts';
import { idOf, membersOf } from '../members.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';

/** The drawing of a print as its record says it was drawn, with a field on the line of each size to be read of it. The
 *  machine is left out: the print lies on the bench. Ids of fields as in the result, numbered in the order of the
 *  result. */
export function printForm(
  kernel: ManifoldToplevel,
  prepared: Prepared,
  { sizes }: Pick<TrialRecord, 'sizes'>,
  paper: FormPaper,
): ReadingForm {
  let number = 0;
  const parts = membersOf(prepared).map(({ member, prepared: { family, values } }): FormPart => {
    const sizeOf = (id: string) => {
      const of = idOf(member, id);
      return Object.hasOwn(sizes, of) ? sizes[of] : undefined;
    };
    const drawn = Object.fromEntries(
      family.interfaces(values, {}).flatMap(({ id }) => {
        const size = sizeOf(id);
        return size === undefined ? [] : [[id, size.drawn] as const];
      }),
    ) as Drawn;
    const interfaces = family.interfaces(values, drawn).filter(({ id }) => sizeOf(id) !== undefined);
    return {
      name: member.name,
      lengths: interfaces.map((one) => ({
        key: idOf(member, one.id),
        number: ++number,
        callout: jawsOn(one, drawn),
      })),
      meshes: withScope(kernel, (scope) => ({
        part: meshOf(realise(scope, family.shape(values, drawn))),
        hosts: [],
      })),
    };
  });
  return formOf(parts, paper);
}

/** Where the jaws touch a print; a size that ends at the axis of a hollow is read to its near wall. */
function jawsOn({ id, kind, at, across, hollow }: Interface, drawn: Drawn): Callout {
  const size = drawn[id]!;
  const from = (distance: number) => add(at, times(across, distance));
  if (kind !== 'step') return [from(-size / 2), from(size / 2)];
  const half = hollow === undefined ? 0 : (drawn[hollow] ?? 0) / 2;
  return [from(half), from(size)];
}
