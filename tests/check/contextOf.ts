import { afterAll, beforeAll } from 'vitest';
import type { CheckContext } from '../../src/check/context.ts';
import type { Finding } from '../../src/check/finding.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { Remembered } from '../../src/remembered/remembered.ts';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { identity, matrix, shift } from '../../src/solid/placement.ts';
import { realise } from '../../src/solid/realise.ts';
import { placed, type Shape } from '../../src/solid/shape.ts';
import type { Placement } from '../../src/solid/vector.ts';

const exact = (value: number) => ({ value, u: 0 });

/** An invented printer that prints exactly what it is told. Lengths in mm. */
export const printer: PrinterProfile = {
  fettlePrinter: 2,
  name: 'bench printer',
  material: null,
  calibrated: null,
  bed: { x: 120, y: 100, z: 80 },
  lineWidth: 0.42,
  layer: 0.2,
  firstLayer: 0.2,
  scale: { x: exact(1), y: exact(1), z: exact(1) },
  outerGrowth: exact(0),
  boreShrink: exact(0),
  boreCurvature: exact(0),
  firstLayerSpread: exact(0),
  firstLayerError: exact(0),
  levelSag: exact(0),
  skew: exact(0),
  repeatability: 0.02,
  overhang: 45,
  bridge: 10,
};

/** Quarter turn about the vertical. */
export const quarterTurn: Placement = { rotation: [0, -1, 0, 1, 0, 0, 0, 0, 1], translation: [0, 0, 0] };

interface Told {
  readonly printer?: Partial<PrinterProfile>;
  readonly turn?: Placement;
  readonly genus?: number;
}

let scope: Scope;

/** Call once in a test file: loads the kernel before it, frees everything after it. */
export function withKernel(): void {
  beforeAll(async () => {
    scope = new Scope(await loadKernel());
  });
  afterAll(() => scope.close());
}

/** What a check of shape alone reads: the shape as a solid with its lowest corner at the origin, and its layers. */
export function contextOf(shape: Shape, told: Told = {}): CheckContext {
  const profile = { ...printer, ...told.printer };
  const raw = realise(scope, placed(shape, told.turn ?? identity));
  const [x, y, z] = raw.boundingBox().min;
  const solid = scope.keep(raw.transform(matrix(shift([-x, -y, -z]))));
  const context: Partial<CheckContext> = {
    scope,
    known: new Remembered(),
    printer: profile,
    solid,
    layers: layersOf(scope, solid, profile.firstLayer, profile.layer),
    family: { genus: () => told.genus ?? 0 } as unknown as CheckContext['family'],
    values: { choices: {} } as unknown as CheckContext['values'],
  };
  return context as CheckContext;
}

/** The one finding of a check. */
export function only(findings: readonly Finding[]): Finding {
  const [finding, ...others] = findings;
  if (finding === undefined || others.length > 0)
    throw new RangeError(`only requires 1 finding (got ${findings.length})`);
  return finding;
}

/** The finding's value; throws for a finding without a number. */
export function numberOf({ id, value }: Finding): number {
  if (value === null) throw new RangeError(`numberOf requires a finding with a number (${id})`);
  return value;
}
