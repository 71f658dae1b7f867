import type { Check } from './context.ts';
import { ALONG_LAYERS, angleToLayers } from './mouthState.ts';
import { percent, unlessHolds } from './verdictOf.ts';

/** Whether the arms bend along the layers or pull them apart. */
export const layerDirection: Check = (context) =>
  context.loads.map((load) => {
    const angle = angleToLayers(context, load);
    const { onceAlong, onceAcross } = context.material.permissible;
    const verdict = angle <= ALONG_LAYERS ? 'holds' : 'caution';
    return {
      id: `layers.${load.id}`,
      title: 'layers against the bending of the arms',
      verdict,
      value: angle,
      limit: ALONG_LAYERS,
      unit: 'deg',
      margin: ALONG_LAYERS - angle,
      because: `the bar stands ${angle.toFixed(0)} degrees from the upright of the bed; ${context.material.name} bears ${percent(onceAlong.value)} along the layers and ${percent(onceAcross.value)} across them`,
      source: `${onceAcross.source}; the angle is common practice, no source`,
      remedy: unlessHolds(verdict, 'lay it so that the bar stands upright on the bed'),
      at: null,
    };
  });
