import type { Vec3 } from '../../solid/vector.ts';

/** Sizes nearer than this are the same, as a share. */
const SAME_SIZE = 1e-3;
/** Places nearer than this share of the diagonal are the same. */
const SAME_PLACE = 1e-4;

/** Largest first; those of one size by place along x, then y, then z. What noise does to sizes and places changes nothing. */
export function inOrder<T extends { readonly at: Vec3 }>(
  things: readonly T[],
  sizeOf: (thing: T) => number,
  diagonal: number,
): T[] {
  const left = [...things].sort((a, b) => sizeOf(b) - sizeOf(a));
  const ordered: T[] = [];
  while (left.length > 0) {
    const size = sizeOf(left[0]!);
    const count = left.findIndex((thing) => sizeOf(thing) < size * (1 - SAME_SIZE));
    const group = left.splice(0, count === -1 ? left.length : count);
    ordered.push(...byPlace(group, 0, SAME_PLACE * diagonal));
  }
  return ordered;
}

function byPlace<T extends { readonly at: Vec3 }>(group: T[], k: number, near: number): T[] {
  if (k > 2 || group.length < 2) return group;
  group.sort((a, b) => a.at[k]! - b.at[k]!);
  const ordered: T[] = [];
  let start = 0;
  for (let i = 1; i <= group.length; i++) {
    if (i < group.length && group[i]!.at[k]! - group[i - 1]!.at[k]! < near) continue;
    ordered.push(...byPlace(group.slice(start, i), k + 1, near));
    start = i;
  }
  return ordered;
}
