import { difference, type Shape, union } from '../solid/shape.ts';
import type { Material } from '../standards/materials.ts';
import type { Callout } from './callout.ts';
import type { FamilyFinding } from './familyFinding.ts';
import type { Interface } from './interface.ts';
import type { Load, RouteStep } from './load.ts';
import type { HostPart, Pose } from './machine.ts';
import type { Rule } from './rule.ts';
import type { Drawn } from './values.ts';

/** What is known once the part is planned. */
export interface Made {
  /** Sizes as drawn and as expected off the printer, by interface, mm. */
  readonly drawn: Drawn;
  readonly prints: Drawn;
  readonly material: Material;
  /** Readings with their standard uncertainty, in the unit of each; an absent reading is undefined. */
  readonly known: Readonly<Record<string, Known | undefined>>;
  /** Standard uncertainty of each clearance, of print and machine together, by interface, mm; absent: not reckoned. */
  readonly doubt?: Drawn;
}

/** A reading as far as a feature looks at it. */
export interface Known {
  readonly value: number;
  readonly u: number;
  /** How many readings it is the mean of. */
  readonly n?: number;
  /** Causes of its uncertainty; `reading:ID` is the scatter of the mean. */
  readonly contributors?: readonly { readonly id: string; readonly u: number }[];
}

/** One piece of a part that brings everything about itself: plastic and hollows, where it meets the machine, what the
 *  machine looks like there, what loads it, what is to be said of it. A family that is a list of features declares
 *  nothing twice. Frame of the part, mm. Solids are made only when asked for. */
export interface Feature {
  /** Plastic it adds. */
  readonly add?: () => Shape;
  /** Room it cuts out of all that was added. */
  readonly cut?: () => Shape;
  readonly interfaces?: readonly Interface[];
  /** Where the jaws touch for the readings it was drawn from, by reading. */
  readonly callouts?: Readonly<Record<string, Callout>>;
  readonly hosts?: () => readonly HostPart[];
  /** How the machine moves around the part; at most one feature of a part says it. */
  readonly motion?: () => readonly Pose[];
  readonly loads?: readonly Load[];
  readonly rules?: readonly Rule[];
  readonly findings?: (made: Made) => readonly FamilyFinding[];
  readonly cautions?: readonly string[];
  /** Actions at the bench it takes to put the part in, in the order of the features. */
  readonly steps?: readonly RouteStep[];
  /** Holes through the part that it makes. */
  readonly holes?: number;
}

/** Everything added, less everything cut. Throws `RangeError` when nothing is added. */
export function shapeOfFeatures(features: readonly Feature[]): Shape {
  const added = features.flatMap(({ add }) => (add ? [add()] : []));
  const cut = features.flatMap((feature) => (feature.cut ? [feature.cut()] : []));
  return difference(union(...added), ...cut);
}
