import type { Vec2 } from '../solid/vector.ts';
import { demand } from './demand.ts';
import type { CompressedBlock, RubberBlock } from './rubberBlock.ts';
import { compressBlock, freeHeight, pressBlock } from './rubberBlock.ts';
import { settleFeet } from './springFeet.ts';

/** A foot with a rubber block, and a stiff part that holds it off the machine. */
export interface RubberFoot {
  /** mm. */
  readonly at: Readonly<Vec2>;
  /** The block; its height is without load. */
  readonly block: RubberBlock;
  /** Height of what does not give way between block and machine, mm, 0 or above; absent: 0. */
  readonly stiff?: number;
}

export interface SettledRubber {
  /** Each block as it stands; `force` 0 where it hangs. */
  readonly blocks: readonly CompressedBlock[];
  /** Height of the machine above the desk at each foot, mm. */
  readonly heights: readonly number[];
  /** Room between foot and desk, mm, 0 where it carries. */
  readonly gaps: readonly number[];
}

/** How a stiff machine settles on rubber feet that stiffen as they are pressed.
 *
 *  Newton's method: each foot is replaced by the spring that touches its curve where it stands (`settleFeet`), until no load moves by
 *  1e-10 of the weight. The curves are smooth and stiffen, so a handful of rounds do. Throws as `settleFeet` and `compressBlock`,
 *  and `Error` when it does not come to rest, which no case has been seen to do.
 *  @example settleRubber(feet, [150, 100], 40).blocks.map((b) => b.force) */
export function settleRubber(
  feet: readonly RubberFoot[],
  centre: Readonly<Vec2>,
  weight: number,
): SettledRubber {
  for (const { stiff = 0 } of feet)
    demand('foot', 'stiff', stiff, stiff >= 0 && stiff < Infinity, '0 mm or above');
  const free = feet.map(({ block, stiff = 0 }) => block.height + stiff);
  let blocks = feet.map(({ block }) => compressBlock(block, weight / feet.length));
  for (let round = 0; round < 100; round++) {
    const settled = settleFeet(
      feet.map(({ at }, i) => {
        const { deflection, force, stiffness } = blocks[i]!;
        return { at, stiffness, height: free[i]! - deflection + force / stiffness };
      }),
      centre,
      weight,
    );
    const heights = settled.heights;
    const next = feet.map(({ block }, i) => {
      // A tangent may overshoot what a block can be pressed; half of what is left stays.
      const least = 0.5 * blocks[i]!.height;
      return pressBlock(block, Math.max(0, Math.min(free[i]! - heights[i]!, block.height - least)));
    });
    const change = Math.max(...next.map((b, i) => Math.abs(b.force - settled.loads[i]!)));
    blocks = next;
    if (change <= 1e-10 * weight) {
      return { blocks, heights, gaps: heights.map((h, i) => Math.max(0, h - free[i]!)) };
    }
  }
  throw new Error(`rubber feet did not come to rest under ${weight} N`);
}

/** Heights of blocks to draw, mm, foot by foot, so that the machine stands at `loaded` mm above the desk at each foot, stiff part and all.
 *
 *  Four and more feet can share a weight in many ways; the blocks are drawn for the evenest, that of equal springs, so that all carry and
 *  none rocks. `settleRubber` of what comes out finds just these heights again. A foot that in this share would hang is drawn to touch.
 *  The asked heights must lie on a plane for the machine to stand so: they are taken as they are. Throws as `settleRubber` and `freeHeight`.
 *  @example levelFeet(feet, [12, 12, 8, 8], [150, 100], 40) */
export function levelFeet(
  feet: readonly (Omit<RubberFoot, 'block'> & { readonly block: Omit<RubberBlock, 'height'> })[],
  loaded: readonly number[],
  centre: Readonly<Vec2>,
  weight: number,
): number[] {
  demand(
    'level feet',
    'heights',
    loaded.length,
    loaded.length === feet.length,
    `for all ${feet.length} feet`,
  );
  const { loads } = settleFeet(
    feet.map(({ at }) => ({ at, stiffness: 1, height: 0 })),
    centre,
    weight,
  );
  return feet.map(({ block, stiff = 0 }, i) => freeHeight(block, loaded[i]! - stiff, loads[i]!));
}
