import type { Known, PrinterProfile } from '../../src/printer/types.ts';

const known = (value: number): Known => ({ value, u: 0.01 });

/** Numbers of an invented printer, by the names of the profile. */
export interface Behaviour {
  readonly scale?: readonly [number, number, number];
  readonly outerGrowth?: number;
  readonly boreShrink?: number;
  readonly boreCurvature?: number;
  readonly firstLayerSpread?: number;
  readonly firstLayerError?: number;
  readonly levelSag?: number;
  readonly skew?: number;
  readonly layer?: number;
  readonly firstLayer?: number;
}

/** An invented printer that prints true but for what is named. */
export function printer(behaviour: Behaviour = {}): PrinterProfile {
  const [x, y, z] = behaviour.scale ?? [1, 1, 1];
  return {
    fettlePrinter: 2,
    name: 'Bench Ox',
    material: null,
    calibrated: null,
    bed: { x: 200, y: 200, z: 180 },
    lineWidth: 0.45,
    layer: behaviour.layer ?? 0.2,
    firstLayer: behaviour.firstLayer ?? 0.2,
    scale: { x: known(x), y: known(y), z: known(z) },
    outerGrowth: known(behaviour.outerGrowth ?? 0),
    boreShrink: known(behaviour.boreShrink ?? 0),
    boreCurvature: known(behaviour.boreCurvature ?? 0),
    firstLayerSpread: known(behaviour.firstLayerSpread ?? 0),
    firstLayerError: known(behaviour.firstLayerError ?? 0),
    levelSag: known(behaviour.levelSag ?? 0),
    skew: known(behaviour.skew ?? 0),
    repeatability: 0.02,
    overhang: 45,
    bridge: 8,
  };
}
