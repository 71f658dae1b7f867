import type { PressFitResult } from './pressFit.ts';

/** A post with a crush rib on each of two opposite faces, in a socket. Lengths in mm, stresses in MPa. */
export interface CrushRibFit {
  /** Size over the ribs less the socket before assembly; 0 or below gives no force. */
  readonly interference: number;
  /** Length of the ribs in the socket, above 0. */
  readonly length: number;
  /** Thickness of the socket's wall, above 0. */
  readonly wall: number;
  /** Strength of the rib's plastic, above 0. */
  readonly strength: number;
  /** Modulus of the socket, above 0. */
  readonly socketModulus: number;
  readonly friction: number;
}

/** Pressure at which a confined ridge flows, as a multiple of the strength: what a hardness test finds of a full
 *  plastic (Tabor, The Hardness of Metals, from memory). A ridge with free flanks flows sooner, so the force on the old
 *  part is not underestimated. */
const FLOW = 3;

/** Push and stretch of a socket by two crush ribs whose crests are right angles: flattened by half the interference each,
 *  a crest is as broad as the interference, and presses with its flow pressure however stiff the socket is. The two
 *  walls beside the pair carry that force as tension. Elastic give of post and socket, which lessens it, is left out.
 *  Throws `RangeError` outside the stated ranges.
 *  @example two ribs 4 mm long, 0.1 mm too large, strength 40 MPa: 3 * 40 * 0.1 * 4 = 48 N on each wall
 *  crushRibFit({ interference: 0.1, length: 4, wall: 1.2, strength: 40, socketModulus: 2300, friction: 0.4 }).pushForce
 *  // => 38.4 */
export function crushRibFit(fit: CrushRibFit): PressFitResult {
  const { interference, length, wall, strength, socketModulus, friction } = fit;
  for (const [name, value] of Object.entries({ length, wall, strength, socketModulus })) {
    if (!(value > 0 && value < Infinity))
      throw new RangeError(`crush ribs require ${name} above 0 (given ${value})`);
  }
  if (!Number.isFinite(interference) || !(friction >= 0))
    throw new RangeError(
      `crush ribs require a finite interference and friction of 0 or above (given ${interference} mm, ${friction})`,
    );
  const normal = FLOW * strength * Math.max(0, interference) * length;
  const stress = normal / (2 * wall * length);
  return {
    pressure: interference > 0 ? FLOW * strength : 0,
    hoopStress: stress,
    hoopStrain: stress / socketModulus,
    pushForce: 2 * friction * normal,
  };
}
