import { groupOf } from '../../../src/job/groupOf.ts';

/** An interface, or several that are felt as one, that a ladder can step. */
export interface LadderChoice {
  readonly group: string;
  /** "post in socket: width, length" */
  readonly name: string;
}

/** What ladders there can be of a job, from its interfaces; the parts of a set feel alike. The one of the least chance first,
 *  each with its sizes alone behind it where it has several.
 *  @example ladderGroups([{ id: 'socket.width', name: 'post, width', chance: 0.9 }], [])[0].group // => 'socket' */
export function ladderGroups(
  interfaces: readonly { readonly id: string; readonly name: string; readonly chance: number }[],
  parts: readonly string[],
): readonly LadderChoice[] {
  const groups = new Map<string, { names: Map<string, string>; chance: number }>();
  for (const { id, name, chance } of interfaces) {
    const part = parts.find((one) => one !== '' && id.startsWith(`${one}.`));
    const own = part === undefined ? id : id.slice(part.length + 1);
    const group = groupOf(own);
    const there = groups.get(group);
    groups.set(group, {
      names: new Map([...(there?.names ?? []), [own, name]]),
      chance: Math.min(there?.chance ?? 1, chance),
    });
  }
  return [...groups]
    .sort(([, a], [, b]) => a.chance - b.chance)
    .flatMap(([group, { names }]) => [
      { group, name: joined([...new Set(names.values())]) },
      ...(names.size < 2 ? [] : [...names].map(([id, name]) => ({ group: id, name: `${name}, alone` }))),
    ]);
}

/** Names that begin alike, said once: "post in socket, width" and "..., length". */
function joined(names: readonly string[]): string {
  const [first = ''] = names;
  const head = first.split(', ')[0]!;
  if (names.length < 2 || !names.every((name) => name.startsWith(`${head}, `))) return names.join('; ');
  return `${head}: ${names.map((name) => name.slice(head.length + 2)).join(', ')}`;
}
