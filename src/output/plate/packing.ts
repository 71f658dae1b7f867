import { type CrossSection, type ManifoldToplevel, Scope } from '../../solid/kernel.ts';
import type { Vec2 } from '../../solid/vector.ts';
import { bestPlace } from './bestPlace.ts';
import type { Bed, PlateItem, PlatePlacement } from './plateTypes.ts';
import { type Pose, poseOf, posesOf } from './pose.ts';
import { toMicrometre } from './toMicrometre.ts';
import { tooClose } from './tooClose.ts';
import { UsedBox } from './usedBox.ts';
import type { Way } from './way.ts';

/** What rounding to whole micrometres may take from a distance, both ways. */
const ROUNDING = 0.003;

/** Everything about a set of items that does not depend on the way they are laid out. Close it afterwards. */
export class Packing {
  readonly #scope: Scope;
  readonly #items: readonly PlateItem[];
  /** Of each item, as its job lays it; and in every turn that it may be given, found out when somebody asks. */
  readonly #laid: readonly Pose[];
  #turned: readonly (readonly Pose[])[] | undefined;
  readonly #room: { readonly from: Vec2; readonly to: Vec2 };
  readonly #spacing: number;
  readonly #closeBy = new Map<string, CrossSection>();

  constructor(kernel: ManifoldToplevel, items: readonly PlateItem[], bed: Bed, spacing: number) {
    this.#scope = new Scope(kernel);
    this.#items = items;
    this.#spacing = spacing;
    this.#room = { from: [spacing, spacing], to: [bed.x - spacing, bed.y - spacing] };
    this.#laid = items.map((item, k) => poseOf(kernel, item, k, item.turns[0]!));
  }

  close(): void {
    this.#scope.close();
  }

  /** Finds a place for one part after the other, each the best that is left; parts without one are left out. */
  layOut(way: Way): readonly PlatePlacement[] {
    const poses = way.turning ? this.#everyTurn() : this.#laid.map((pose) => [pose]);
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

  #everyTurn(): readonly (readonly Pose[])[] {
    this.#turned ??= this.#laid.map((pose, k) => posesOf(this.#scope.kernel, this.#items[k]!, pose));
    return this.#turned;
  }

  #inOrder(order: Way['order']): readonly number[] {
    const area = (k: number): number => {
      const [width, depth] = this.#laid[k]!.size;
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
