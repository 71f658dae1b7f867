import { power } from '../arithmetic/power.ts';
import { demand, demandAbove0, plain } from './demand.ts';

/** Cross-section of one leg of a split round stem. Lengths in mm. */
export interface SplitStem {
  /** Diameter of the stem. */
  readonly diameter: number;
  /** Bore along its axis, 0 or above; absent: none. */
  readonly bore?: number;
  /** Legs, 2 to 6. */
  readonly legs: number;
  /** Width of the slots between them, above 0. */
  readonly slot: number;
}

export interface LegSection {
  /** mm^2. */
  readonly area: number;
  /** Distance of the centroid from the stem's axis, mm. */
  readonly centroid: number;
  /** Second moment for bending towards the axis, mm^4. */
  readonly inertia: number;
  /** Distance of the outer face from the centroid, and of the innermost edge, mm. */
  readonly outer: number;
  readonly inner: number;
  /** How far the leg can move inwards before legs meet, mm. */
  readonly room: number;
}

/** Area, centroid and second moment of a leg, closed form.
 *
 *  The slots' edges meet on the leg's middle line at p = slot / (2 sin(pi/n)) from the axis; the leg is the triangle from there to the
 *  chord of the outer circle, and the circular segment beyond, less the same of the bore. For a segment of half-angle t: area R^2 (t - sin t cos t), moment 2/3 R^3
 *  sin^3 t, second moment about the diameter R^4/4 (t - sin t cos t + 2 sin^3 t cos t) (Roark's Formulas, table of section properties; from memory,
 *  checked by integration). Two legs are two segments. p is also the room: legs that have moved that far touch.
 *  Throws `RangeError` outside the stated ranges, or when the slots leave no leg.
 *  @example half of a round bar of 2 mm, no slot to speak of: R^4 (pi/8 - 8/(9 pi))
 *  legSection({ diameter: 2, legs: 2, slot: 1e-9 }).inertia // => 0.1098 */
export function legSection(stem: SplitStem): LegSection {
  const { diameter, legs, slot } = stem;
  const bore = stem.bore ?? 0;
  demandAbove0('split stem', { diameter, slot });
  demand('split stem', 'bore', bore, bore >= 0 && bore < diameter, `0 to below ${diameter} mm`);
  demand('split stem', 'legs', legs, Number.isInteger(legs) && legs >= 2 && legs <= 6, '2 to 6');
  const half = Math.PI / legs;
  const room = slot / (2 * Math.sin(half));
  demand(
    'split stem',
    'slot',
    slot,
    room < diameter / 2,
    `below ${plain(diameter * Math.sin(half))} mm, to leave a leg`,
  );
  const whole = wedge(diameter / 2, room, half);
  const hollow =
    bore / 2 > room ? wedge(bore / 2, room, half) : { area: 0, first: 0, second: 0, corner: room };
  const area = whole.area - hollow.area;
  const centroid = (whole.first - hollow.first) / area;
  return {
    area,
    centroid,
    inertia: whole.second - hollow.second - area * centroid ** 2,
    outer: diameter / 2 - centroid,
    inner: centroid - hollow.corner,
    room,
  };
}

/** Between two lines that leave (p, 0) at `half` to either side, inside the circle of radius R about the origin: area, first and second
 *  moment about the line x = 0, and the least x on the circle's arc. */
function wedge(R: number, p: number, half: number) {
  // Sine rule in the triangle of origin, corner and point of the circle.
  const t = half - Math.asin((p * Math.sin(half)) / R);
  const [sin, cos] = [Math.sin(t), Math.cos(t)];
  const deep = R * cos - p;
  // The triangle has its tip at p and its base on the chord, which never lies before the tip as half is a right angle at most.
  const area = deep * R * sin;
  return {
    area: R * R * (t - sin * cos) + area,
    first: (2 / 3) * power(R * sin, 3) + area * (p + (2 / 3) * deep),
    second:
      (power(R, 4) / 4) * (t - sin * cos + 2 * power(sin, 3) * cos) +
      area * (p * p + (4 / 3) * p * deep + (deep * deep) / 2),
    corner: R * cos,
  };
}
