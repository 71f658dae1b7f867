import { matingFactorOfSlope } from './snapJoint.ts';

/** A round bar and the mouth it snaps through. Lengths in mm, angles in radians. */
export interface SnapThrough {
  readonly barDiameter: number;
  /** Width of the mouth where it is narrowest, above 0. */
  readonly mouth: number;
  /** Half-angle of the lead-in from the direction of insertion, 0 to below pi/2. */
  readonly flareAngle: number;
  /** Width of the lead-in at its outer edge; the mouth's own for none. */
  readonly flareWidth: number;
  /** Diameter of the bore, or width of the slot, behind the lips; not below the mouth. */
  readonly boreDiameter: number;
  /** Half-angle of a flank behind the lips from the direction of pulling; absent: the bare corner of lip and bore. */
  readonly retentionAngle?: number;
  /** Force that moves one lip aside by 1 mm, N/mm, with the depth in it, 0 or above. */
  readonly stiffness: number;
  /** Friction of bar on lip, 0 or above. */
  readonly friction: number;
}

/** One way through the mouth. */
export interface Passage {
  /** Largest push on the way, N; null when it locks. */
  readonly force: number | null;
  /** From first touch to the narrowest point, mm. */
  readonly travel: number;
  /** Somewhere on the way the lips stand too steep to be spread by the bar: no push moves it. */
  readonly locks: boolean;
}

export interface SnapThroughResult {
  /** How far each lip gives way at most, mm. */
  readonly deflection: number;
  readonly pushIn: Passage;
  readonly pullOut: Passage;
  /** How far the bar moves freely from the middle of the bore to the lips, mm. */
  readonly play: number;
}

/** Where a bar at some height touches a lip: how far the lip is aside, and the slope of the contact normal. */
interface Touch {
  readonly deflection: number;
  /** Vertical over horizontal part of the contact normal. */
  readonly slope: number;
}

/** Steps along the path; the largest force is found to about the square of their inverse. */
const STEPS = 2000;

/** Push-in and pull-out force of a round bar through a springy mouth.
 *
 *  The bar meets the outer corner of the lead-in, its flank, or the lip's corner, whichever asks the most room; each lip moves
 *  straight aside. At each step the push is 2 k deflection (mu + tan a) / (1 - mu tan a), where tan a is the slope of the
 *  contact normal: the flank's angle first, falling to 0 as the bar rolls over the corner. The force is the largest on
 *  the path. On the way out the lips' corners, or a flank of `retentionAngle`, are met from behind.
 *
 *  The lips' own turning as they spread, which blunts the retention, is left out. A bar not larger than the mouth passes without force. Throws `RangeError` for values
 *  outside the stated ranges.
 *  @example snapThrough({ barDiameter: 1.6, mouth: 1.4, flareAngle: Math.PI / 6, flareWidth: 2.2, boreDiameter: 1.8,
 *    stiffness: 100, friction: 0.2 }).deflection // => 0.1 */
export function snapThrough(given: SnapThrough): SnapThroughResult {
  const { barDiameter, mouth, flareAngle, flareWidth, boreDiameter, stiffness, friction } = given;
  const retention = given.retentionAngle;
  for (const [name, value, allowed, range] of [
    ['barDiameter', barDiameter, barDiameter > 0, 'above 0 mm'],
    ['mouth', mouth, mouth > 0, 'above 0 mm'],
    ['flareAngle', flareAngle, flareAngle >= 0 && flareAngle < Math.PI / 2, '0 to below pi/2'],
    ['flareWidth', flareWidth, flareWidth >= mouth, `${mouth} mm (the mouth) or above`],
    ['boreDiameter', boreDiameter, boreDiameter >= mouth, `${mouth} mm (the mouth) or above`],
    ['retentionAngle', retention ?? 0, (retention ?? 0) >= 0 && (retention ?? 0) <= Math.PI / 2, '0 to pi/2'],
    ['stiffness', stiffness, stiffness >= 0, '0 N/mm or above'],
    ['friction', friction, friction >= 0, '0 or above'],
  ] as const) {
    if (!(allowed && Number.isFinite(value)))
      throw new RangeError(`snap-through requires ${name} ${range} (given ${value})`);
  }
  const radius = barDiameter / 2;
  const half = mouth / 2;
  const reach = Math.sqrt(Math.max(0, radius ** 2 - half ** 2));
  const play = Math.max(0, Math.sqrt(boreDiameter ** 2 / 4 - half ** 2) - reach);
  const none: Passage = { force: 0, travel: 0, locks: false };
  if (radius <= half) return { deflection: 0, pushIn: none, pullOut: none, play };
  const lead = lip(radius, half, flareAngle, flareWidth / 2);
  const behind = lip(radius, half, retention ?? 0, retention === undefined ? half : boreDiameter / 2);
  return {
    deflection: radius - half,
    pushIn: passage(lead, stiffness, friction),
    pullOut: passage(behind, stiffness, friction),
    play,
  };
}

interface Lip {
  /** Distance of the bar's centre before the narrowest point at first touch, mm. */
  readonly start: number;
  touch(before: number): Touch;
}

/** A lip met from the side of its flank, the bar's centre `before` mm short of the narrowest point. */
function lip(radius: number, half: number, angle: number, outer: number): Lip {
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  // A flank steeper than the bar is round stays behind its corner: only corners are met.
  const flat = angle > 0 && radius * cos > half;
  const depth = angle > 0 ? ((outer - half) * cos) / sin : 0;
  const corner = (x: number, ahead: number): Touch | null => {
    // The corner lies `ahead` of the centre along the path; touched only from before it.
    if (ahead < 0 || ahead > radius) return null;
    const room = Math.sqrt(radius ** 2 - ahead ** 2);
    return { deflection: room - x, slope: room > 0 ? ahead / room : Infinity };
  };
  const flank = (before: number): Touch | null => {
    // The foot of the normal runs along the flank, 0 at the lip.
    const foot = (before - radius * sin) * cos;
    if (!flat || foot < 0 || foot > depth) return null;
    return { deflection: (radius - before * sin) / cos - half, slope: sin / cos };
  };
  const touch = (before: number): Touch => {
    let most: Touch = { deflection: -Infinity, slope: 0 };
    for (const t of [corner(half, before), flank(before), corner(outer, before - depth)]) {
      if (t !== null && t.deflection > most.deflection) most = t;
    }
    return most;
  };
  const starts = [Math.sqrt(radius ** 2 - half ** 2)];
  if (radius > outer) starts.push(depth + Math.sqrt(radius ** 2 - outer ** 2));
  if (flat) {
    const onFlank = (radius - half * cos) / sin;
    const found = flank(onFlank);
    if (found !== null) starts.push(onFlank);
  }
  return { start: Math.max(...starts), touch };
}

function passage({ start, touch }: Lip, stiffness: number, friction: number): Passage {
  let most = 0;
  for (let k = 0; k <= STEPS; k++) {
    const { deflection, slope } = touch(start * (1 - k / STEPS));
    if (deflection < -1e-9 * start) continue;
    const mating = matingFactorOfSlope(friction, slope);
    if (mating.locks) return { force: null, travel: start, locks: true };
    most = Math.max(most, 2 * stiffness * Math.max(0, deflection) * mating.factor);
  }
  return { force: most, travel: start, locks: false };
}
