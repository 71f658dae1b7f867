import type { Shape } from '../solid/shape.ts';
import type { Placement, Vec3 } from '../solid/vector.ts';

/** One solid of the machine around the part, in the frame of the part, as measured. */
export interface HostPart {
  readonly id: string;
  readonly name: string;
  readonly shape: Shape;
  /** The part rests against it: unit vector from the part into the host. Contact there is no clash, and a printed
   *  part that stands proud is seated against it before anything is judged. */
  readonly seat?: Vec3;
  /** Least gap wanted over the whole motion, mm; 0 for parts that meet at an interface. */
  readonly keepOff: number;
  /** It hangs on the part and goes where that goes, as a connector in a cover: it holds the part in no place. */
  readonly loose?: boolean;
  /** Interfaces through which it meets the part; their windows allow interference. */
  readonly meets?: readonly string[];
}

/** One position of the machine's motion; hosts not named stay put. */
export interface Pose {
  /** "key 2.0 mm down". */
  readonly name: string;
  readonly placements: Readonly<Record<string, Placement>>;
}
