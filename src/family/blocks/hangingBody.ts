import { chordError, facets } from '../../solid/facets.ts';
import { prism } from '../../solid/primitives.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import type { Feature } from '../feature.ts';
import type { BarHollow } from './barHollow.ts';

/** Plastic that hangs from z = 0 around the hollow of a bar. mm. */
export interface BodyAroundHollow {
  readonly hollow: BarHollow;
  /** Thickness of plastic around the hollow. */
  readonly arm: number;
  /** How far the shoulder at least reaches to either side of y = 0. */
  readonly shoulder: number;
}

export interface HangingBody extends Feature {
  /** The two sides of the shoulder along y, and how far the body reaches below the middle of the hollow, mm. */
  readonly left: number;
  readonly right: number;
  readonly outer: number;
  /** Thickness of the shoulder, mm. */
  readonly head: number;
}

/** Least and most thickness of a shoulder, mm: it takes the push on the part. Common practice, no source. */
const SHOULDER = { least: 0.8, most: 1.6 } as const;

/** A shoulder on top, straight sides, and round below the hollow; as long along x as the hollow says. Brings its plastic
 *  alone.
 *  @example hangingBody({ hollow, arm: 1, shoulder: 3 }).right // => 3, around a hollow 2 mm long in the middle */
export function hangingBody({ hollow, arm, shoulder }: BodyAroundHollow): HangingBody {
  const { width, overall, middle, drop, deep } = hollow;
  const left = Math.min(middle - overall / 2 - arm, -shoulder);
  const right = Math.max(middle + overall / 2 + arm, shoulder);
  const outer = width / 2 + arm;
  const head = Math.max(SHOULDER.least, Math.min(SHOULDER.most, drop - width / 2));
  return {
    ...{ left, right, outer, head },
    add: () => prism('x', outline(hollow, arm, [left, right], head), -deep / 2, deep / 2),
  };
}

/** Outline in (y, z), counter-clockwise. */
function outline(
  { width, overall, middle, drop }: BarHollow,
  arm: number,
  [left, right]: Vec2,
  head: number,
): Contour {
  const outer = width / 2 + arm;
  const half = overall / 2 + arm;
  // The arms bend as thick as they are drawn, so their outside is held as true as the bore.
  const steps = facets(2 * outer, chordError.interface) / 4;
  const round = (side: 1 | -1, from: number): Vec2[] =>
    Array.from({ length: steps + 1 }, (_, k) => {
      const angle = from + (Math.PI / 2) * (k / steps);
      return [middle + side * (half - outer) + outer * Math.cos(angle), -drop + outer * Math.sin(angle)];
    });
  const sameLine = half - outer < 1e-9 ? 1 : 0;
  const ring: Contour = [
    [right, 0],
    [left, 0],
    [left, -head],
    [middle - half, -head],
    ...round(-1, Math.PI),
    ...round(1, 1.5 * Math.PI).slice(sameLine),
    [middle + half, -head],
    [right, -head],
  ];
  return ring.filter((p, k) => Math.hypot(p[0] - ring.at(k - 1)![0], p[1] - ring.at(k - 1)![1]) > 1e-9);
}
