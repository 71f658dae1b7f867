import type { Vec2 } from '../solid/vector.ts';
import { demand } from './demand.ts';
import { supportPolygon } from './supportPolygon.ts';

/** Where a machine's weight acts, seen from above, and how well that is known. */
export interface CentreOfGravity {
  /** mm. */
  readonly at: Readonly<Vec2>;
  /** Radius in which it lies for sure, mm, 0 or above. */
  readonly doubt: number;
}

/** Share of the shorter side of the feet's outline by which an unknown centre of gravity may be off; common practice, no
 *  source: power supply and disc drives put it well off the middle. */
const UNKNOWN = 0.15;

/** Centre of gravity of a machine of which nothing is known but where its feet are: the middle of the box around them, give or take 15 % of
 *  its shorter side. Throws as `supportPolygon`.
 *  @example unknownCentre([[0, 0], [300, 0], [300, 200], [0, 200]]) // => { at: [150, 100], doubt: 30 } */
export function unknownCentre(feet: readonly Readonly<Vec2>[]): CentreOfGravity {
  supportPolygon(feet);
  const [x, y] = [feet.map((p) => p[0]), feet.map((p) => p[1])];
  const box = [Math.min(...x), Math.max(...x), Math.min(...y), Math.max(...y)] as const;
  return {
    at: [(box[0] + box[1]) / 2, (box[2] + box[3]) / 2],
    doubt: UNKNOWN * Math.min(box[1] - box[0], box[3] - box[2]),
  };
}

/** Centre of gravity from a weighing: scale readings under three or more feet, in N or any one unit, all above or at 0.
 *  Throws `RangeError` for readings that do not match the feet or weigh nothing.
 *  @example weighedCentre([[0, 0], [300, 0], [150, 200]], [10, 10, 20]).at // => [150, 100] */
export function weighedCentre(feet: readonly Readonly<Vec2>[], readings: readonly number[]): CentreOfGravity {
  demand(
    'weighing',
    'readings',
    readings.length,
    readings.length === feet.length,
    `for all ${feet.length} feet`,
  );
  for (const w of readings) demand('weighing', 'readings', w, w >= 0 && w < Infinity, '0 or above');
  const total = readings.reduce((sum, w) => sum + w, 0);
  demand('weighing', 'total', total, total > 0, 'above 0');
  const mean = (c: 0 | 1) => feet.reduce((sum, p, i) => sum + p[c] * readings[i]!, 0) / total;
  return { at: [mean(0), mean(1)], doubt: 0 };
}
