import type { Known, PrinterProfile } from './types.ts';

/** Middle of a range and the standard uncertainty of not knowing where in it (JCGM 100:2008, 4.3.7). */
function somewhereBetween(lowest: number, highest: number): Known {
  return { value: (lowest + highest) / 2, u: (highest - lowest) / 2 / Math.sqrt(3) };
}

/** A filament printer nobody has measured: middle of what such machines do, with doubt as wide as they differ.
 *  All ranges common practice, no source. */
export const defaultPrinter: PrinterProfile = {
  fettlePrinter: 2,
  name: 'uncalibrated printer',
  material: null,
  calibrated: null,
  bed: { x: 220, y: 220, z: 220 },
  lineWidth: 0.45,
  layer: 0.2,
  firstLayer: 0.2,
  scale: {
    x: somewhereBetween(0.994, 1.002),
    y: somewhereBetween(0.994, 1.002),
    z: somewhereBetween(0.999, 1.001),
  },
  outerGrowth: somewhereBetween(-0.05, 0.15),
  boreShrink: somewhereBetween(0.02, 0.15),
  boreCurvature: somewhereBetween(0, 0.25),
  firstLayerSpread: somewhereBetween(0, 0.3),
  firstLayerError: somewhereBetween(-0.05, 0.05),
  levelSag: somewhereBetween(0, 0.3),
  skew: somewhereBetween(-0.003, 0.003),
  repeatability: 0.0275,
  overhang: 50,
  bridge: 10,
};
