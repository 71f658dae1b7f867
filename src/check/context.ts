import type { Family } from '../family/family.ts';
import type { Interface } from '../family/interface.ts';
import type { Load, Route } from '../family/load.ts';
import type { HostPart, Pose } from '../family/machine.ts';
import type { Drawn, Values } from '../family/values.ts';
import type { Window } from '../fit/types.ts';
import type { Dimension } from '../measure/types.ts';
import type { PrinterProfile } from '../printer/types.ts';
import type { Remembered } from '../remembered/remembered.ts';
import type { Manifold, Scope } from '../solid/kernel.ts';
import type { Layer } from '../solid/layers.ts';
import type { Placement } from '../solid/vector.ts';
import type { Material } from '../standards/materials.ts';
import type { Finding } from './finding.ts';

/** An interface with what was decided and computed for it. Lengths in mm, frame of the part. */
export interface PlannedInterface extends Interface {
  /** Size in the STL. */
  readonly drawn: number;
  /** Size expected off the printer, by formula. */
  readonly predicted: number;
  readonly window: Window;
  /** Expected clearance: positive is loose. */
  readonly clearance: number;
  /** Standard uncertainty of that clearance. */
  readonly u: number;
  /** Chance that the clearance lies in the window, 0..1. */
  readonly chance: number;
}

/** Everything a check may look at. Solids belong to the scope; a check keeps what it makes in it. */
export interface CheckContext {
  readonly scope: Scope;
  /** What was found before, for what takes long; a solid of the same content is the same object. */
  readonly known: Remembered;
  readonly family: Family;
  readonly values: Values;
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly material: Material;
  readonly printer: PrinterProfile;
  /** Warmest the part gets in service, degC. */
  readonly temperature: number;
  /** From the frame of the part to the frame of the bed and the STL. */
  readonly onBed: Placement;
  /** The part as drawn, on the bed: lowest corner of its box at the origin. */
  readonly solid: Manifold;
  /** `solid` cut into the printer's layers. */
  readonly layers: readonly Layer[];
  /** What is expected off the printer, in the frame of the bed. */
  readonly predicted: Manifold;
  readonly interfaces: readonly PlannedInterface[];
  /** Expected sizes off the printer, by interface, mm. */
  readonly prints: Drawn;
  /** The machine around the part, in the frame of the part. */
  readonly hosts: readonly { readonly part: HostPart; readonly solid: Manifold }[];
  readonly poses: readonly Pose[];
  readonly loads: readonly Load[];
  readonly routes: readonly Route[];
}

/** An interface without what its doubt changes: what geometry may hang on. */
export const withoutDoubt = (one: PlannedInterface): PlannedInterface => ({ ...one, u: 0, chance: 0 });

/** A check: pure, one idea, as many findings as it has things to judge. */
export type Check = (context: CheckContext) => readonly Finding[];
