import type { CrossSection, Manifold, Scope } from './kernel.ts';
import type { Contour, Vec2 } from './vector.ts';

/** One printed layer: the section at mid-height, which is what decides what the printer lays down. */
export interface Layer {
  /** Heights above the bed, mm. */
  readonly bottom: number;
  readonly top: number;
  /** Owned by the scope. Layers with the same outline share one object, so compare with ===. */
  readonly section: CrossSection;
  /** Outer contours counter-clockwise, holes clockwise, without vertices on a straight line, each from its leftmost
   *  (then lowest) vertex on. Empty contours: nothing is printed here. */
  readonly contours: readonly Contour[];
}

/** Vertices that agree to this are the same, and a vertex this close to the line through its neighbours is none, mm.
 *  Far below any size that matters, far above the rounding of a section. */
const SAME = 1e-6;

/** A face no further than this above the middle of a layer does not reach into it, mm. Otherwise the rounding of 32-bit
 *  coordinates, 8e-6 mm at a height of 200, would decide whether what is drawn just up to the middle is printed, and where a
 *  hollow is widest just there a cut would run through its vertices. Far below what anybody sets a height to. */
export const HAIR = 2e-5;

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
    if (middle + HAIR >= height) break;
    const cut = solid.slice(middle + HAIR);
    const contours = canonical(cut.toPolygons() as Contour[]);
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

/** A section's vertices depend on which triangles it happens to cross: a flat side gets one where it crosses the
 *  side's diagonal, and contours start anywhere. Without this, no two layers of a straight wall would be the same. */
function canonical(contours: readonly Contour[]): Contour[] {
  const straightened = contours
    .map((contour) => withoutStraight(apart(contour)))
    .filter((contour) => contour.length >= 3);
  return straightened.map(fromLeftmost).sort((a, b) => beside(a[0]!, b[0]!) || a.length - b.length);
}

const beside = (p: Readonly<Vec2>, q: Readonly<Vec2>): number =>
  Math.abs(p[0] - q[0]) > SAME ? p[0] - q[0] : Math.abs(p[1] - q[1]) > SAME ? p[1] - q[1] : 0;

/** Without vertices that repeat the one before. A cut beside a vertex of the solid passes all the triangles that meet in it
 *  and has a crowd of them there; each alone would seem to lie straight between its neighbours, and the corner would go. */
function apart(contour: Contour): Contour {
  const kept: Contour = [];
  const same = (p: Readonly<Vec2>, q: Readonly<Vec2>): boolean =>
    Math.hypot(p[0] - q[0], p[1] - q[1]) <= SAME;
  for (const p of contour) if (kept.length === 0 || !same(kept.at(-1)!, p)) kept.push(p);
  while (kept.length > 1 && same(kept.at(-1)!, kept[0]!)) kept.pop();
  return kept;
}

function withoutStraight(contour: Contour): Contour {
  const kept: Contour = [];
  const n = contour.length;
  for (let i = 0; i < n; i++) {
    const before = kept.at(-1) ?? contour[n - 1]!;
    if (!onTheWay(before, contour[i]!, contour[(i + 1) % n]!)) kept.push(contour[i]!);
  }
  // The first was held against a last vertex that may be gone by now.
  while (kept.length > 3 && onTheWay(kept.at(-1)!, kept[0]!, kept[1]!)) kept.shift();
  return kept;
}

/** Whether `p` lies on the line from `a` to `b`. */
function onTheWay(a: Readonly<Vec2>, p: Readonly<Vec2>, b: Readonly<Vec2>): boolean {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const away = Math.abs(ux * (p[1] - a[1]) - uy * (p[0] - a[0]));
  return away <= SAME * Math.hypot(ux, uy);
}

function fromLeftmost(contour: Contour): Contour {
  let first = 0;
  for (let i = 1; i < contour.length; i++) if (beside(contour[i]!, contour[first]!) < 0) first = i;
  return first === 0 ? contour : [...contour.slice(first), ...contour.slice(0, first)];
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
