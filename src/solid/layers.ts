import type { CrossSection, Manifold, Scope } from './kernel.ts';
import type { Contour } from './vector.ts';

/** One printed layer: the section at mid-height, which is what decides what the printer lays down. */
export interface Layer {
  /** Heights above the bed, mm. */
  readonly bottom: number;
  readonly top: number;
  /** Owned by the scope. Layers with the same outline share one object, so compare with ===. */
  readonly section: CrossSection;
  /** Outer contours counter-clockwise, holes clockwise. Empty contours: nothing is printed here. */
  readonly contours: readonly Contour[];
}

/** Two outlines are the same layer when every vertex agrees to this, mm. */
const SAME = 1e-6;

/** Cuts a solid that lies on the bed (lowest point at z = 0) into layers. A layer is printed when its mid-height
 *  lies inside the part, which is how heights come to be whole layers.
 *  Throws `RangeError` unless both layer heights are above 0. */
export function layersOf(scope: Scope, solid: Manifold, firstLayer: number, layer: number): Layer[] {
  if (!(firstLayer > 0 && layer > 0)) {
    throw new RangeError(
      `layersOf requires layer heights above 0 (first ${firstLayer} mm, others ${layer} mm)`,
    );
  }
  const height = solid.boundingBox().max[2];
  const layers: Layer[] = [];
  let bottom = 0;
  for (let k = 0; ; k++) {
    const thickness = k === 0 ? firstLayer : layer;
    const middle = bottom + thickness / 2;
    if (middle >= height) break;
    const cut = solid.slice(middle);
    const contours = cut.toPolygons() as Contour[];
    const below = layers.at(-1);
    if (below && sameContours(below.contours, contours)) {
      cut.delete();
      layers.push({ ...below, bottom, top: bottom + thickness });
    } else {
      layers.push({ bottom, top: bottom + thickness, section: scope.keep(cut), contours });
    }
    bottom += thickness;
  }
  return layers;
}

function sameContours(a: readonly Contour[], b: readonly Contour[]): boolean {
  return (
    a.length === b.length &&
    a.every((contour, k) => {
      const other = b[k]!;
      return (
        contour.length === other.length &&
        contour.every((p, i) => Math.abs(p[0] - other[i]![0]) < SAME && Math.abs(p[1] - other[i]![1]) < SAME)
      );
    })
  );
}
