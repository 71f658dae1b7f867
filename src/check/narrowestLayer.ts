import type { Layer } from '../solid/layers.ts';
import type { Narrowest } from '../solid/thickness.ts';
import type { Contour, Vec3 } from '../solid/vector.ts';
import { chordThrough, contains } from './polygons.ts';

/** Two walls that lean apart by more than 45 degrees, from one layer to the next, are a ridge or a groove, not a
 *  wall or a gap: the top of a rod lying down is no thin wall, the roof of a bore no slit. Each leans by half, so
 *  that round things lying down are taken where they are about nine tenths of their diameter wide, or more. */
const LEAN = Math.tan((45 / 2) * (Math.PI / 180));

type Find = (
  contours: readonly Contour[],
  below: number,
  counts: (place: Narrowest) => boolean,
) => Narrowest | null;

/** The narrowest place of all layers: how wide, and where in the middle of the layer on the bed, mm. Layers that
 *  share an outline are looked at once, and each only for what is narrower than those before. In the first layer a
 *  place prints `spread` mm wider than drawn. */
export function narrowestLayer(
  layers: readonly Layer[],
  find: Find,
  spread = 0,
): { readonly width: number; readonly at: Vec3 } | null {
  let found: { width: number; at: Vec3 } | null = null;
  layers.forEach((layer, k) => {
    const [below, above] = [layers[k - 1], layers[k + 1]];
    const wider = k === 0 ? spread : 0;
    // The second layer is looked at even so when the first prints wider.
    if (below?.contours === layer.contours && !(k === 1 && spread > 0)) return;
    // A second layer of the same outline shows that its walls stand upright.
    const upright = above?.contours === layer.contours;
    const counts = (place: Narrowest): boolean =>
      upright || [below, above].every((next) => next === undefined || !opens(place, layer, next));
    const narrowest = find(layer.contours, found?.width ?? Infinity, counts);
    const middle = (layer.bottom + layer.top) / 2;
    if (narrowest !== null) found = { width: narrowest.width + wider, at: [...narrowest.at, middle] };
  });
  return found;
}

/** Whether the place is so much wider in the next layer that its walls lean apart. */
function opens({ at, across, width }: Narrowest, layer: Layer, next: Layer): boolean {
  if (contains(next.contours, at) !== contains(layer.contours, at)) return false;
  const rise = Math.abs(next.top + next.bottom - layer.top - layer.bottom) / 2;
  return chordThrough(at, across, next.contours) > width + 2 * rise * LEAN;
}
