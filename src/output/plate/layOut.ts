import { type CrossSection, type ManifoldToplevel, Scope, withScope } from '../../solid/kernel.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import { type CoarseOutline, coarseOutline } from './coarseOutline.ts';
import type { Bed, PlateItem, PlatePlacement, Turn } from './plateTypes.ts';
import { tooClose } from './tooClose.ts';
import { boxOf, turned } from './turned.ts';

/** In which order parts find their place, and which free place they take. */
export interface Way {
  readonly order: 'tallest first' | 'largest first';
  readonly aim: 'middle of the bed' | 'small box';
  /** Whether parts may be turned from how their job lays them. */
  readonly turning: boolean;
}

/** A part in one of its turns. */
interface Pose {
  readonly item: number;
  readonly turn: Turn;
  readonly coarse: CoarseOutline;
  /** Width and depth of its box, mm. */
  readonly size: Vec2;
}

/** Numbers in a layout are whole micrometres. */
export const toMicrometre = (value: number): number => Math.round(value * 1000) / 1000;

/** What rounding to whole micrometres may take from a distance, both ways. */
const ROUNDING = 0.003;

/** Everything about a set of items that does not depend on the way they are laid out. Close it afterwards. */
export class Packing {
  readonly #scope: Scope;
  readonly #items: readonly PlateItem[];
  readonly #poses: readonly (readonly Pose[])[];
  readonly #room: { readonly from: Vec2; readonly to: Vec2 };
  readonly #spacing: number;
  readonly #closeBy = new Map<string, CrossSection>();

  constructor(kernel: ManifoldToplevel, items: readonly PlateItem[], bed: Bed, spacing: number) {
    this.#scope = new Scope(kernel);
    this.#items = items;
    this.#spacing = spacing;
    this.#room = { from: [spacing, spacing], to: [bed.x - spacing, bed.y - spacing] };
    this.#poses = items.map((item, k) => posesOf(kernel, item, k));
  }

  close(): void {
    this.#scope.close();
  }

  /** Finds a place for one part after the other, each the best that is left; parts without one are left out. */
  layOut(way: Way): readonly PlatePlacement[] {
    const poses = way.turning ? this.#poses : this.#poses.map(([first]) => [first!]);
    const free = new Map(poses.flat().map((pose) => [pose, this.#freeFor(pose)] as const));
    try {
      return this.#place(way, poses, free);
    } finally {
      for (const section of free.values()) section.delete();
    }
  }

  /** `free`: where the corner of each pose may still be. */
  #place(
    { order, aim }: Way,
    poses: readonly (readonly Pose[])[],
    free: Map<Pose, CrossSection>,
  ): readonly PlatePlacement[] {
    const placed: PlatePlacement[] = [];
    const used = new UsedBox();
    const { from, to } = this.#room;
    const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    for (const item of this.#inOrder(order)) {
      for (let copy = 1; copy <= this.#items[item]!.count; copy++) {
        const [first, ...others] = poses[item]!.flatMap((pose) => {
          const best = bestPlace(free.get(pose)!, pose, aim, middle, used);
          return best === null ? [] : [{ pose, ...best }];
        });
        if (!first) break;
        const { pose, at: found } = others.reduce((a, b) => (b.score < a.score - 1e-6 ? b : a), first);
        const within = (k: 0 | 1): number =>
          Math.min(to[k] - pose.size[k], Math.max(from[k], toMicrometre(found[k])));
        const at: Vec2 = [within(0), within(1)];
        placed.push({ item, copy, turn: pose.turn, x: at[0], y: at[1] });
        used.add(at, pose.size);
        this.#take(pose, at, free);
      }
      // Nobody asks any more where these may be.
      for (const pose of poses[item]!) {
        free.get(pose)!.delete();
        free.delete(pose);
      }
    }
    return placed;
  }

  /** Takes out of `free` what lies too close to a part that was just placed. */
  #take(pose: Pose, at: Vec2, free: Map<Pose, CrossSection>): void {
    for (const [other, section] of free) {
      if (section.isEmpty()) continue;
      const taken = this.#tooClose(pose, other).translate(at);
      free.set(other, section.subtract(taken));
      taken.delete();
      section.delete();
    }
  }

  #inOrder(order: Way['order']): readonly number[] {
    const area = (k: number): number => {
      const [width, depth] = this.#poses[k]![0]!.size;
      return width * depth;
    };
    // Parts that differ by less than a millimetre are as tall as one another.
    const height = (k: number): number => Math.round(this.#items[k]!.height);
    const tallest = (a: number, b: number) => height(b) - height(a);
    const largest = (a: number, b: number) => area(b) - area(a);
    const [first, second] = order === 'tallest first' ? [tallest, largest] : [largest, tallest];
    return this.#items.map((_, k) => k).sort((a, b) => first(a, b) || second(a, b) || a - b);
  }

  /** Where the front left corner of a pose may be on an empty bed; empty when it does not fit. */
  #freeFor({ size }: Pose): CrossSection {
    const { from, to } = this.#room;
    const [right, back] = [to[0] - size[0] + ROUNDING, to[1] - size[1] + ROUNDING];
    const [left, front] = [from[0] - ROUNDING, from[1] - ROUNDING];
    const { CrossSection } = this.#scope.kernel;
    if (right < left + ROUNDING || back < front + ROUNDING) return new CrossSection([]);
    return new CrossSection([
      [
        [left, front],
        [right, front],
        [right, back],
        [left, back],
      ],
    ]);
  }

  #tooClose(fixed: Pose, mobile: Pose): CrossSection {
    const key = `${fixed.item} ${fixed.turn} ${mobile.item} ${mobile.turn}`;
    const known = this.#closeBy.get(key);
    if (known) return known;
    const region = tooClose(this.#scope, fixed.coarse, mobile.coarse, this.#spacing + ROUNDING);
    this.#closeBy.set(key, region);
    return region;
  }
}

/** The turns of an item that make a difference. */
function posesOf(kernel: ManifoldToplevel, { outline, turns }: PlateItem, item: number): readonly Pose[] {
  const poses: (Pose & { readonly contours: readonly Contour[] })[] = [];
  for (const turn of turns) {
    const contours = turned(outline, turn);
    if (poses.some((other) => sameShape(kernel, other.contours, contours))) continue;
    poses.push({ item, turn, contours, size: boxOf(contours).max, coarse: coarseOutline(kernel, contours) });
  }
  return poses;
}

/** Whether two outlines differ by less than a hundredth of a millimetre all along. */
const sameShape = (kernel: ManifoldToplevel, a: readonly Contour[], b: readonly Contour[]): boolean =>
  withScope(kernel, (scope) => {
    const [p, q] = [a, b].map((contours) =>
      scope.keep(
        new kernel.CrossSection(
          contours.map((contour) => [...contour]),
          'NonZero',
        ),
      ),
    ) as [CrossSection, CrossSection];
    const grown = (of: CrossSection) => scope.keep(of.offset(0.01, 'Miter', 4));
    return scope.keep(p.subtract(grown(q))).isEmpty() && scope.keep(q.subtract(grown(p))).isEmpty();
  });

class UsedBox {
  #from: Vec2 = [Infinity, Infinity];
  #to: Vec2 = [-Infinity, -Infinity];

  add([x, y]: Readonly<Vec2>, [width, depth]: Readonly<Vec2>): void {
    this.#from = [Math.min(this.#from[0], x), Math.min(this.#from[1], y)];
    this.#to = [Math.max(this.#to[0], x + width), Math.max(this.#to[1], y + depth)];
  }

  /** Its area once another box is in it, mm^2. */
  areaWith([x, y]: Readonly<Vec2>, [width, depth]: Readonly<Vec2>): number {
    const [from, to] = [this.#from, this.#to];
    return (
      (Math.max(to[0], x + width) - Math.min(from[0], x)) *
      (Math.max(to[1], y + depth) - Math.min(from[1], y))
    );
  }
}

/** The best place in a region; the front one of equals, and the left one of those. */
function bestPlace(
  free: CrossSection,
  { size }: Pose,
  aim: Way['aim'],
  middle: Readonly<Vec2>,
  used: UsedBox,
): { readonly at: Vec2; readonly score: number } | null {
  if (free.isEmpty()) return null;
  const target: Vec2 = [middle[0] - size[0] / 2, middle[1] - size[1] / 2];
  const away = ([x, y]: Readonly<Vec2>): number => (x - target[0]) ** 2 + (y - target[1]) ** 2;
  const score =
    aim === 'middle of the bed'
      ? away
      : (p: Readonly<Vec2>) => used.areaWith(p, size) + 1e-3 * (p[1] + 1e-3 * p[0]);
  const contours = free.toPolygons() as Contour[];
  const places = candidates(contours, target);
  let best: { at: Vec2; score: number } | null = null;
  for (const at of places) {
    const found = score(at);
    const better =
      best === null ||
      found < best.score - 1e-6 ||
      (found < best.score + 1e-6 &&
        (at[1] < best.at[1] - 1e-6 || (at[1] < best.at[1] + 1e-6 && at[0] < best.at[0] - 1e-6)));
    if (better) best = { at, score: found };
  }
  return best;
}

/** Corners of the region, the point of each side next to `target`, and `target` itself where it is free. */
function candidates(contours: readonly Contour[], target: Readonly<Vec2>): Vec2[] {
  const places: Vec2[] = [];
  let inside = false;
  for (const contour of contours) {
    let [ax, ay] = contour.at(-1)!;
    for (const [bx, by] of contour) {
      places.push([bx, by]);
      const [dx, dy] = [bx - ax, by - ay];
      const t = ((target[0] - ax) * dx + (target[1] - ay) * dy) / (dx * dx + dy * dy);
      if (t > 0 && t < 1) places.push([ax + t * dx, ay + t * dy]);
      if (ay > target[1] !== by > target[1] && target[0] < ax + ((target[1] - ay) / (by - ay)) * dx)
        inside = !inside;
      [ax, ay] = [bx, by];
    }
  }
  if (inside) places.push([...target]);
  return places;
}
