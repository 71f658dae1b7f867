import type { Vec2 } from '../solid/vector.ts';
import type { CentreOfGravity } from './centreOfGravity.ts';
import { demand, demandAbove0 } from './demand.ts';
import { nearestEdge } from './supportPolygon.ts';

export interface Tipping {
  /** Slope of the desk, radians, at which it goes over; 0 or below: it does not stand. */
  readonly angle: number;
  /** The two feet over which it goes. */
  readonly over: readonly [number, number];
  /** Level push at the height of the centre of gravity that starts it, as a share of the weight: the tangent of the angle. */
  readonly push: number;
}

/** Angle at which a machine tips: the centre of gravity, `height` mm above the desk (above 0), leaves the outline of the feet.
 *  Its doubt counts against it. Throws `RangeError` outside the ranges and as `supportPolygon`.
 *  @example tipping([[0, 0], [300, 0], [300, 200], [0, 200]], { at: [150, 60], doubt: 0 }, 60).angle // => 0.785, 45 degrees */
export function tipping(feet: readonly Readonly<Vec2>[], centre: CentreOfGravity, height: number): Tipping {
  demandAbove0('tipping', { 'height of centre of gravity': height });
  demand('tipping', 'doubt', centre.doubt, centre.doubt >= 0 && centre.doubt < Infinity, '0 mm or above');
  const edge = nearestEdge(feet, centre.at);
  const inside = edge.inside - centre.doubt;
  return { angle: Math.atan2(inside, height), over: edge.feet, push: inside / height };
}
