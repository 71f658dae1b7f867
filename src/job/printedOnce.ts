import { predictedPrint } from '../printer/predictedPrint.ts';
import type { Known, PrinterProfile } from '../printer/types.ts';
import { bytesOf } from '../remembered/realisedOnce.ts';
import type { Remembered } from '../remembered/remembered.ts';
import type { Manifold, Scope } from '../solid/kernel.ts';
import { type Layer, layersOf } from '../solid/layers.ts';

/** What a point of a section takes in wasm memory and out of it, bytes, roughly. */
const PER_POINT = 200;

/** `layersOf`, once for every solid and pair of layer heights. */
export const layersOnce = (
  known: Remembered,
  scope: Scope,
  solid: Manifold,
  { firstLayer, layer }: Pick<PrinterProfile, 'firstLayer' | 'layer'>,
): readonly Layer[] =>
  known.held(
    scope,
    'layers',
    { solid, firstLayer, layer },
    (own) => layersOf(own, solid, firstLayer, layer),
    (layers) => {
      const outlines = new Set(layers.map(({ contours }) => contours));
      return [...outlines].reduce((sum, contours) => sum + PER_POINT * contours.flat().length, 0);
    },
  );

/** `predictedPrint`, once for the layers and all that a profile says of how walls and layers come out. */
export function predictedOnce(
  known: Remembered,
  scope: Scope,
  layers: readonly Layer[],
  printer: PrinterProfile,
): Manifold {
  const expected = expectedOf(printer);
  return known.held(
    scope,
    'predicted print',
    { layers, expected },
    (own) => predictedPrint(own, layers, expected),
    bytesOf,
  );
}

/** The profile without names and doubts: how it is expected to print, and no more. */
function expectedOf(printer: PrinterProfile): PrinterProfile {
  const sure = ({ value }: Known): Known => ({ value, u: 0 });
  const { scale, outerGrowth, boreShrink, boreCurvature } = printer;
  const { firstLayerSpread, firstLayerError, levelSag, skew } = printer;
  return {
    ...printer,
    ...{ name: '', material: null, calibrated: null, calibration: undefined },
    ...{ bed: { x: 0, y: 0, z: 0 }, repeatability: 0 },
    scale: { x: sure(scale.x), y: sure(scale.y), z: sure(scale.z) },
    ...{ outerGrowth: sure(outerGrowth), boreShrink: sure(boreShrink), boreCurvature: sure(boreCurvature) },
    ...{ firstLayerSpread: sure(firstLayerSpread), firstLayerError: sure(firstLayerError) },
    ...{ levelSag: sure(levelSag), skew: sure(skew) },
  };
}
