import type { Contour, Vec2 } from '../../solid/vector.ts';
import type { Bed, Plate } from './plateTypes.ts';
import { turned } from './turned.ts';

/** One part on the bed, seen from above, mm from the front left corner of the bed. */
export interface Standing {
  readonly contours: readonly Contour[];
  /** Number of its kind, from 1. */
  readonly number: number;
  /** A point well inside, for the number, and how much room there is beside it from side to side. */
  readonly at: Vec2;
  readonly long: number;
}

/** A bed from above. */
export interface BedView {
  readonly bed: Bed;
  readonly standing: readonly Standing[];
  /** Kinds of part, in the order of their numbers. */
  readonly kinds: readonly { readonly name: string; readonly count: number; readonly height: number }[];
}

/** What a plate shows from above, as data for whatever draws it. */
export function bedView({
  bed,
  plate,
  parts,
}: {
  readonly bed: Bed;
  readonly plate: Plate;
  readonly parts: readonly {
    readonly outline: readonly Contour[];
    readonly name: string;
    readonly height: number;
  }[];
}): BedView {
  return {
    bed,
    standing: plate.placements.map(({ item, turn, x, y }) => {
      const contours = turned(parts[item]!.outline, turn).map((contour) =>
        contour.map(([u, v]): Vec2 => [u + x, v + y]),
      );
      return { contours, number: item + 1, ...middleOf(contours) };
    }),
    kinds: parts.map(({ name, height }, k) => ({
      ...{ name, height },
      count: plate.placements.filter(({ item }) => item === k).length,
    })),
  };
}

/** A point well inside a part: of the middles of its level chords, that of the longest one. */
function middleOf(contours: readonly Contour[]): { readonly at: Vec2; readonly long: number } {
  const ys = contours.flatMap((contour) => contour.map(([, y]) => y));
  const [front, back] = [Math.min(...ys), Math.max(...ys)];
  const chords = [1 / 2, 1 / 3, 2 / 3, 1 / 6, 5 / 6].flatMap((share) => {
    const y = front + share * (back - front);
    const cuts = contours.flatMap((contour) =>
      contour.flatMap(([ax, ay], k) => {
        const [bx, by] = contour[(k + 1) % contour.length]!;
        return ay > y === by > y ? [] : [ax + ((y - ay) / (by - ay)) * (bx - ax)];
      }),
    );
    cuts.sort((a, b) => a - b);
    return cuts.flatMap((x, k) => {
      const end = cuts[k + 1];
      return k % 2 === 0 && end !== undefined ? [{ at: [(x + end) / 2, y] as Vec2, long: end - x }] : [];
    });
  });
  return chords.reduce((a, b) => (b.long > a.long + 1e-6 ? b : a));
}
