import type { ArmShape } from './armFlexibility.ts';
import { armFlexibility } from './armFlexibility.ts';
import { demand } from './demand.ts';
import { filletConcentration } from './filletConcentration.ts';
import type { JointForce } from './jointForce.ts';
import { jointForce } from './jointForce.ts';

/** A snap arm with a nose that passes an edge. Angles in radians to the direction of joining. */
export interface SpringArm extends ArmShape {
  /** MPa, secant modulus at the strain reached. */
  readonly modulus: number;
  readonly poisson: number;
  /** Flank that meets the edge going in, 0 to pi/2. */
  readonly insertionAngle: number;
  /** Flank that holds, 0 to pi/2; a right angle locks. */
  readonly retentionAngle: number;
  /** Friction of nose on edge, 0 or above. */
  readonly friction: number;
}

export interface ArmState {
  /** Deflection of the tip, mm. */
  readonly deflection: number;
  /** Force across the tip, N. */
  readonly force: number;
  /** Nominal bending strain, which design guides hold against their permissible strain, 0.01 is 1 %. */
  readonly strain: number;
  /** Strain at the foot of the fillet, which starts a crack. */
  readonly peakStrain: number;
  readonly pushIn: JointForce;
  readonly pullOut: JointForce;
}

/** A snap arm at each of several deflections of its tip, mm, 0 or above: the least and most that readings leave, say.
 *
 *  Linear: force and strain grow with the deflection (see `armFlexibility` for the sources). Against plane finite elements over
 *  l/h 2 to 15, uniform and tapered to half, fillets of 0.1 to 1 h: force within -11 % to +9 %, peak strain within -10 % to +13 %
 *  (tests/outside/springArm), so no elements are run here. The rigid-root relation of the guides is 80 % too stiff at l/h 2 and 20 % at 6.
 *  Name a flange that is no wider than the arm: at three quarters of the arm's thickness and held six thicknesses away it halves the force of a
 *  short arm; from twice the thickness on it is as good as deep. A plate far wider than the arm is as good as deep from the arm's own thickness
 *  on: strain within 6 %, force up to 9 % higher (tests/outside/armElements). Deflections past a tenth of the length bend further than
 *  small-deflection theory goes. The deflection is taken whole by the arm. Throws `RangeError` outside the stated ranges.
 *  @example springArm(arm, [0.5, 0.8]).map((s) => s.strain) */
export function springArm(arm: SpringArm, deflections: readonly number[]): ArmState[] {
  const { friction, insertionAngle, retentionAngle } = arm;
  for (const [name, angle] of Object.entries({ insertionAngle, retentionAngle })) {
    demand('spring arm', name, angle, angle >= 0 && angle <= Math.PI / 2, '0 to pi/2');
  }
  demand('spring arm', 'friction', friction, friction >= 0 && friction < Infinity, '0 or above');
  const flexibility = armFlexibility(arm, arm.modulus, arm.poisson);
  // The concentration belongs to the root; a strong taper's worst section elsewhere has none.
  const { thickness, width } = arm;
  const rootStrain = (6 * flexibility.bendingLength) / (arm.modulus * width * thickness ** 2);
  const peak = Math.max(flexibility.strain, rootStrain * filletConcentration(arm.fillet ?? 0, thickness));
  return deflections.map((deflection) => {
    demand('spring arm', 'deflection', deflection, deflection >= 0 && deflection < Infinity, '0 mm or above');
    const force = deflection / flexibility.total;
    return {
      deflection,
      force,
      strain: force * flexibility.strain,
      peakStrain: force * peak,
      pushIn: jointForce(force, friction, insertionAngle),
      pullOut: jointForce(force, friction, retentionAngle),
    };
  });
}
