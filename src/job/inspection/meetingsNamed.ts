import { allowedNames } from '../nearest.ts';
import { Refused } from '../problem.ts';
import type { Meeting } from './meetings.ts';

/** Ids of the interfaces a name means, in the order of the result: one by its id, or all of a group by what stands before
 *  the point, `socket` for `socket.width` and `socket.length`. In a set of parts a name without a part means that interface
 *  on every part, and the name of a part alone all of its interfaces. Case does not matter. `field` is blamed.
 *  Throws `Refused`: `interface_unknown`, with the near name.
 *  @example meetingsNamed('socket', meetings, '--felt') // => ['socket.width', 'socket.length'] */
export function meetingsNamed(
  name: string,
  meetings: readonly Pick<Meeting, 'id' | 'one'>[],
  field: string,
): readonly string[] {
  const plain = name.trim().toLowerCase();
  const names = ({ id, one }: Pick<Meeting, 'id' | 'one'>) =>
    [id, beginning(id), one.id, beginning(one.id), `${partOf(id, one.id)}${beginning(one.id)}`].map((each) =>
      each.toLowerCase(),
    );
  const exact = meetings.filter(({ id }) => id.toLowerCase() === plain);
  const found = exact.length > 0 ? exact : meetings.filter((each) => names(each).includes(plain));
  if (found.length > 0) return found.map(({ id }) => id);
  const known = meetings.flatMap(({ id, one }) => [id, beginning(one.id)]);
  throw new Refused([
    {
      code: 'interface_unknown',
      field,
      value: name,
      allowed: allowedNames(name, [...new Set(known)]),
      reason: 'is no meeting surface of this part',
    },
  ]);
}

const beginning = (id: string): string => id.split('.', 1)[0]!;
const partOf = (id: string, own: string): string => id.slice(0, id.length - own.length);
