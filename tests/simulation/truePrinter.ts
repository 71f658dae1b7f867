import type { Measurand } from '../../src/printer/measurand.ts';
import type { Randomness } from './randomness.ts';

/** A printer as it really is, which nobody in the simulation can see. Lengths in mm. */
export interface TruePrinter {
  readonly scale: { readonly x: number; readonly y: number; readonly z: number };
  readonly outerGrowth: number;
  readonly boreShrink: number;
  readonly boreCurvature: number;
  readonly firstLayerSpread: number;
  readonly firstLayerError: number;
  readonly levelSag: number;
  readonly skew: number;
  readonly repeatability: number;
}

/** A printer out of many: how much filament printers differ is common practice, no source. */
export const drawPrinter = ({ uniform }: Randomness): TruePrinter => ({
  scale: { x: uniform(0.994, 1.002), y: uniform(0.994, 1.002), z: uniform(0.999, 1.001) },
  outerGrowth: uniform(-0.05, 0.15),
  boreShrink: uniform(0.02, 0.15),
  boreCurvature: uniform(0, 0.25),
  firstLayerSpread: uniform(0, 0.3),
  firstLayerError: uniform(-0.05, 0.05),
  levelSag: uniform(0, 0.3),
  skew: uniform(-0.003, 0.003),
  repeatability: uniform(0.015, 0.04),
});

/** What comes off the printer when `drawn` mm are drawn: plain arithmetic on what the printer does, with nothing of the
 *  project's own formulas. Sizes along z are taken to be drawn in whole layers. */
export function print(
  printer: TruePrinter,
  drawn: number,
  { kind, direction: [x, y, z], hydraulic, faces, lowerFace, atBed, roof }: Measurand,
  { normal }: Randomness,
): number {
  const scatter = normal(printer.repeatability);
  if (Math.abs(z) > 0.7) {
    const stands = (lowerFace ?? 0) === 0 ? printer.firstLayerError : 0;
    return drawn * printer.scale.z + stands - (roof ? printer.levelSag : 0) + scatter;
  }
  const wall = atBed ? printer.firstLayerSpread : 0;
  const out = printer.outerGrowth + wall;
  const into = printer.boreShrink + wall;
  const straight = drawn * (x * x * printer.scale.x + y * y * printer.scale.y + x * y * printer.skew);
  switch (kind) {
    case 'post':
    case 'rib':
      return straight + 2 * out + scatter;
    case 'bore':
      return straight - 2 * into - printer.boreCurvature / (hydraulic?.(drawn) ?? drawn) + scatter;
    case 'slot':
      return straight - 2 * into - printer.boreCurvature / (hydraulic?.(drawn) ?? 2 * drawn) + scatter;
    case 'step':
      return straight + (faces?.outer ?? 1) * out + (faces?.inner ?? 0) * into + scatter;
  }
}
