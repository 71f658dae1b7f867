import type { CheckContext, PlannedInterface } from '../../src/check/context.ts';
import type { HostPart, Pose } from '../../src/family/machine.ts';
import { predictedPrint } from '../../src/printer/predictedPrint.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
import type { Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { after, identity, matrix, shift } from '../../src/solid/placement.ts';
import { realise } from '../../src/solid/realise.ts';
import type { Shape } from '../../src/solid/shape.ts';
import type { Placement } from '../../src/solid/vector.ts';
import { printer } from '../printer/profile.ts';

/** An interface that comes out as drawn unless told otherwise. Lengths in mm. */
export function planned(told: Partial<PlannedInterface>): PlannedInterface {
  const { drawn = 4, host = 4, window = { lo: 0, hi: 0.15 } } = told;
  const kind = told.kind ?? 'post';
  const predicted = told.predicted ?? drawn;
  return {
    ...{ id: 'socket', name: 'post in socket', kind, host, fit: 'snug', drawn, predicted, window },
    ...{ at: [0, 0, 0], axis: [0, 0, 1], across: [1, 0, 0], length: 3, u: 0.02, chance: 0.95 },
    clearance: kind === 'post' || kind === 'rib' ? host - predicted : predicted - host,
    ...told,
  };
}

interface Told {
  readonly hosts: readonly HostPart[];
  readonly poses?: readonly Pose[];
  readonly interfaces?: readonly PlannedInterface[];
  readonly turn?: Placement;
  readonly printer?: PrinterProfile;
}

/** A part in its machine: drawn on the bed, its predicted print, the hosts in the frame of the part. */
export function fittedContext(scope: Scope, part: Shape, told: Told): CheckContext {
  const { hosts, poses = [], interfaces = [], turn = identity, printer: profile = printer() } = told;
  const inPart = realise(scope, part);
  const { min } = scope.keep(inPart.transform(matrix(turn))).boundingBox();
  const onBed = after(shift([-min[0], -min[1], -min[2]]), turn);
  const solid = scope.keep(inPart.transform(matrix(onBed)));
  const layers = layersOf(scope, solid, profile.firstLayer, profile.layer);
  const context: Partial<CheckContext> = {
    known: new Remembered(),
    ...{ scope, printer: profile, onBed, solid, layers, interfaces, poses },
    predicted: predictedPrint(scope, layers, profile),
    hosts: hosts.map((host) => ({ part: host, solid: realise(scope, host.shape) })),
  };
  return context as CheckContext;
}
