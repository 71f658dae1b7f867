import { findMaterial, materials } from '../../standards/materials.ts';
import type { PrinterProfile } from '../types.ts';

/** What printing a solid costs. */
export interface PrintEstimate {
  /** mm^3. */
  readonly volume: number;
  /** g, as if printed solid. */
  readonly mass: number;
  readonly minutes: number;
  /** How the minutes were reckoned, for whoever knows the machine better. */
  readonly method: string;
}

/** Usual speed of the nozzle, mm/s, what a change of layer takes, s, and warming up, min. Common practice, no source. */
const USUAL = { speed: 50, layerChange: 3, warmUp: 4 } as const;

/** Rough mass and printing time of `volume` mm^3 that stand `height` mm tall, in the profile's material, PLA where it names
 *  none that is known. Solid, at one speed throughout: a thin infill takes less, a slow first layer more.
 *  @example printEstimate(6331, 14.8, defaultPrinter).minutes // => 31 */
export function printEstimate(volume: number, height: number, profile: PrinterProfile): PrintEstimate {
  const { lineWidth, layer, firstLayer, material } = profile;
  const known = (material === null ? undefined : findMaterial(material)) ?? materials.PLA;
  const layers = 1 + Math.max(0, Math.round((height - firstLayer) / layer));
  const laying = volume / (lineWidth * layer * USUAL.speed);
  return {
    volume,
    mass: (volume / 1000) * known.density.value,
    minutes: Math.round(USUAL.warmUp + (laying + layers * USUAL.layerChange) / 60),
    method: `solid at ${USUAL.speed} mm/s, ${USUAL.layerChange} s a layer, ${USUAL.warmUp} min to warm up`,
  };
}
