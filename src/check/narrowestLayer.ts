import type { Layer } from '../solid/layers.ts';
import type { Narrowest } from '../solid/thickness.ts';
import type { Contour, Vec3 } from '../solid/vector.ts';

/** The narrowest place of all layers: how wide, and where in the middle of the layer on the bed, mm. Layers that
 *  share an outline are looked at once, and each only for what is narrower than those before. */
export function narrowestLayer(
  layers: readonly Layer[],
  find: (contours: readonly Contour[], below: number) => Narrowest | null,
): { readonly width: number; readonly at: Vec3 } | null {
  let found: { width: number; at: Vec3 } | null = null;
  let last: readonly Contour[] | undefined;
  for (const { contours, bottom, top } of layers) {
    if (contours === last) continue;
    last = contours;
    const narrowest = find(contours, found?.width ?? Infinity);
    if (narrowest !== null) found = { width: narrowest.width, at: [...narrowest.at, (bottom + top) / 2] };
  }
  return found;
}
