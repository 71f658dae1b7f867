import { demand, demandAbove0 } from './demand.ts';

/** Tilt of a case whose back stands `rise` mm higher than its front, supports `apart` mm from each other along the case; radians.
 *  Throws `RangeError` unless `apart` is above 0 and the rise smaller.
 *  @example tiltAngle(20, 200) // => 0.1002, 5.7 degrees */
export function tiltAngle(rise: number, apart: number): number {
  demandAbove0('tilt', { apart });
  demand('tilt', 'rise', rise, Math.abs(rise) < apart, `below ${apart} mm either way`);
  return Math.asin(rise / apart);
}

/** A riser under the edge of a case, from the side. Lengths in mm. */
export interface Riser {
  /** Slope of its top, the case's tilt, radians, 0 to below pi/2. */
  readonly slope: number;
  /** Height at which the case rests, above 0. */
  readonly height: number;
  /** Length of its base along the slope. */
  readonly base: number;
  /** Where the load acts, from the end of the base on the low side, 0 to `base`. */
  readonly loadAt: number;
  /** N, above 0. */
  readonly load: number;
  /** Level push downhill against the riser, from typing or moving the case, N, 0 or above. */
  readonly push: number;
  /** Friction of case on riser and riser on desk, 0 or above. */
  readonly frictionTop: number;
  readonly frictionDesk: number;
}

export interface RiserStability {
  /** Largest slope on which the case stays without help, radians: the arc tangent of the friction. */
  readonly slideAngle: number;
  /** Case stays on the riser's top by friction alone. */
  readonly holdsCase: boolean;
  /** Friction on the desk that the riser asks for; `frictionDesk` or less: it stays. */
  readonly deskFriction: number;
  readonly holdsDesk: boolean;
  /** Push that tips the riser either way, N. */
  readonly tippingPush: number;
  readonly tips: boolean;
}

/** Whether a riser stays put: a load on a slope between two frictions.
 *
 *  While tan(slope) is at most the friction on top, the load comes straight down. On a slicker top what friction does not
 *  hold wedges the riser out: level over upright force is tan(slope - friction angle). The push comes on top of that, at the height of
 *  the case. Statics and Coulomb friction; any textbook of mechanics. Throws `RangeError` outside the stated ranges.
 *  @example riserStability({ slope: 0.1, height: 20, base: 30, loadAt: 15, load: 20, push: 0, frictionTop: 0.5,
 *    frictionDesk: 0.4 }).tippingPush // => 15 */
export function riserStability(riser: Riser): RiserStability {
  const { slope, height, base, loadAt, load, push, frictionTop, frictionDesk } = riser;
  demandAbove0('riser', { height, base, load });
  demand('riser', 'slope', slope, slope >= 0 && slope < Math.PI / 2, '0 to below pi/2');
  demand('riser', 'loadAt', loadAt, loadAt >= 0 && loadAt <= base, `0 to ${base} mm`);
  demand('riser', 'push', push, push >= 0 && push < Infinity, '0 N or above');
  for (const [name, mu] of Object.entries({ frictionTop, frictionDesk })) {
    demand('riser', name, mu, mu >= 0 && mu < Infinity, '0 or above');
  }
  const slideAngle = Math.atan(frictionTop);
  // A load wedged sideways pushes the riser uphill, away from the case; the push goes the other way. The worse of the two counts.
  const wedge = load * Math.tan(Math.max(0, slope - slideAngle));
  const level = Math.max(wedge, push);
  const tippingPush = (load * loadAt) / height;
  const tippingWedge = (load * (base - loadAt)) / height;
  return {
    slideAngle,
    holdsCase: slope <= slideAngle,
    deskFriction: level / load,
    holdsDesk: level / load <= frictionDesk,
    tippingPush: Math.min(tippingPush, tippingWedge),
    tips: push > tippingPush || wedge > tippingWedge,
  };
}
