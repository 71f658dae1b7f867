import type { Meeting } from './meetings.ts';

/** Places that a hand on the machine feels as one: both widths of a post in its socket. */
export interface PlaceGroup {
  /** Of the group, as `fettle trial --felt` takes it: "socket", "front-left.stem". */
  readonly id: string;
  /** "post in socket". */
  readonly name: string;
  /** Interfaces, ids as in the result. */
  readonly ids: readonly string[];
}

/** Interfaces in groups: what stands before the point of an id belongs together, on each part by itself. In the order of the
 *  result.
 *  @example placeGroups(meetings of the clip)[0] // => { id: 'socket', name: 'post in socket', ids: ['socket.width', 'socket.length'] } */
export function placeGroups(
  meetings: readonly (Pick<Meeting, 'id' | 'name'> & { readonly one: Pick<Meeting['one'], 'id'> })[],
): readonly PlaceGroup[] {
  const groups = new Map<string, { readonly id: string; readonly name: string }[]>();
  for (const { id, name, one } of meetings) {
    const part = id.slice(0, id.length - one.id.length);
    const group = `${part}${one.id.split('.', 1)[0]}`;
    groups.set(group, [...(groups.get(group) ?? []), { id, name }]);
  }
  return [...groups].map(([id, all]) => ({
    id,
    name: sharedName(all.map(({ name }) => name)) || id,
    ids: all.map((one) => one.id),
  }));
}

/** What names have in common at their beginning, whole words of it. */
function sharedName(names: readonly string[]): string {
  const [first = '', ...others] = names;
  if (others.length === 0) return first;
  const words = first.split(' ');
  let k = 0;
  while (k < words.length && others.every((name) => bare(name.split(' ')[k]) === bare(words[k]))) k++;
  return bare(words.slice(0, k).join(' '));
}

const bare = (word = ''): string => word.replace(/[\s,:;-]+$/, '');
