import { SAME_SECTION } from '../../../src/donor/respace/proposeRefit.ts';
import { axisFrame } from '../../../src/donor/spans/axisFrame.ts';
import { outlineStep } from '../../../src/donor/spans/outlineStep.ts';
import { type Outline, outlinesAt } from '../../../src/donor/spans/section.ts';
import type { MeshedSheet } from '../../../src/job/refitSheet.ts';
import type { Mesh } from '../../../src/solid/mesh.ts';
import { add, times, type Vec3 } from '../../../src/solid/vector.ts';
import { stretchNames } from '../../donor/words.ts';

/** What a picture in the round needs of a model beyond its sheet; mm, frame of the model. Plain data. */
export interface ModelInTheRound {
  /** The model after the changes of the job. */
  readonly mesh: Mesh;
  /** One for each span of the sheet; null for those too short to be told by a letter. */
  readonly stretches: readonly (StretchInTheRound | null)[];
  /** Sections count as the same while they differ by no more than this share of their area. */
  readonly sameSection: number;
}

export interface StretchInTheRound {
  /** Outermost corners of the section half way along, as they lie on the axis at level 0. */
  readonly around: readonly Vec3[];
  /** How far the outlines near its two ends step apart where they differ most. */
  readonly step: number;
}

/** Directions in which an outermost corner is looked for: every 15 degrees. */
const WAYS = 24;
/** Sections near the ends are taken this share of the length inside, where rounding cannot reach past them. */
const INSIDE = 0.02;

export function modelInTheRound({ mesh, axes, shown, spans }: MeshedSheet): ModelInTheRound {
  const frame = axisFrame(mesh.positions, axes[shown]!.axis);
  const named = [...stretchNames(spans).keys()];
  const outlines = outlinesAt(
    mesh.triangles,
    frame,
    named.flatMap((k) => {
      const { from, to, length } = spans[k]!;
      return [from + INSIDE * length, (from + to) / 2, to - INSIDE * length];
    }),
  );
  const told = new Map(
    named.map((k, n) => {
      const [low, middle, high] = [outlines[3 * n]!, outlines[3 * n + 1]!, outlines[3 * n + 2]!];
      const around = outermost(middle).map(([u, v]) =>
        add(times(frame.across[0], u), times(frame.across[1], v)),
      );
      return [k, { around, step: outlineStep(low, high) }] as const;
    }),
  );
  return {
    mesh: { positions: Float32Array.from(mesh.positions), triangles: mesh.triangles },
    stretches: spans.map((_, k) => told.get(k) ?? null),
    sameSection: SAME_SECTION,
  };
}

/** The corners of an outline that lie farthest out, one for each of the directions at most. */
function outermost(outline: Outline): readonly (readonly [number, number])[] {
  const found = new Set<number>();
  for (let way = 0; way < WAYS; way++) {
    // Between the directions of most walls: square to a wall all of it lies as far out.
    const angle = (2 * Math.PI * (way + 0.5)) / WAYS;
    const [x, y] = [Math.cos(angle), Math.sin(angle)];
    let [best, most] = [-1, -Infinity];
    for (let k = 0; k < outline.length; k += 4) {
      const far = x * outline[k]! + y * outline[k + 1]!;
      if (far > most) [best, most] = [k, far];
    }
    if (best >= 0) found.add(best);
  }
  return [...found].map((k) => [outline[k]!, outline[k + 1]!]);
}
