import type { Geom3 } from '@jscad/modeling/src/geometries/geom3/index.js';
import { chordError, circumscribed, facets, type Surface } from './facets.ts';
import {
  cylinderElliptic,
  extrudeLinear,
  geometries,
  cuboid as jscadCuboid,
  hull as jscadHull,
} from './jscad.ts';
import { matrix } from './placement.ts';
import { area, type Sense } from './profile.ts';
import { moved, placed, type Shape } from './shape.ts';
import type { Contour, Vec3 } from './vector.ts';

export type Axis = 'x' | 'y' | 'z';

/** The two axes of a profile drawn across `axis`, in right-handed order: y, z across x; z, x across y; x, y across z. */
const along: Readonly<Record<Axis, (shape: Shape) => Shape>> = {
  z: (shape) => shape,
  // A profile drawn in (u, v) and extruded along w: (u, v, w) becomes (w, u, v) across x, (v, w, u) across y.
  x: (shape) => placed(shape, { rotation: [0, 0, 1, 1, 0, 0, 0, 1, 0], translation: [0, 0, 0] }),
  y: (shape) => placed(shape, { rotation: [0, 1, 0, 0, 0, 1, 1, 0, 0], translation: [0, 0, 0] }),
};

/** Block with its edges along the axes, from one corner to the opposite one, mm.
 *  Throws `RangeError` unless it has a finite volume above 0. */
export function block(from: Vec3, to: Vec3): Shape {
  const size: Vec3 = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  if (!size.every((s) => s > 0 && s < Infinity))
    throw new RangeError(`block requires from below to on every axis (size ${size.join(' x ')} mm)`);
  const center: Vec3 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2];
  return { kind: 'leaf', geometry: jscadCuboid({ size, center }) };
}

/** Straight extrusion of a simple contour across `axis`, from one coordinate on it to another.
 *  The contour runs counter-clockwise in (y, z), (z, x) or (x, y) for x, y, z.
 *  Throws `RangeError` for a contour that runs clockwise, which would give a solid turned inside out, or has no area. */
export function prism(axis: Axis, contour: Contour, from: number, to: number): Shape {
  if (!(to > from)) throw new RangeError(`prism requires to above from (from ${from} mm, to ${to} mm)`);
  const inside = area(contour);
  if (!(inside > 0))
    throw new RangeError(`prism requires a counter-clockwise contour (area inside ${inside} mm2)`);
  const flat = geometries.geom2.fromPoints(contour);
  const geometry = extrudeLinear({ height: to - from }, flat);
  return along[axis](moved({ kind: 'leaf', geometry }, [0, 0, from]));
}

interface CylinderOptions {
  readonly axis: Axis;
  readonly diameter: number;
  /** Diameter at the far end, mm; for chamfers and countersinks. */
  readonly endDiameter?: number;
  readonly from: Vec3;
  readonly length: number;
  readonly sense: Sense;
  readonly surface?: Surface;
}

/** Round post or bore that starts at `from` and runs `length` mm up its axis. */
export function cylinder({
  axis,
  diameter,
  endDiameter = diameter,
  from,
  length,
  sense,
  surface = 'interface',
}: CylinderOptions): Shape {
  if (!(diameter > 0 && endDiameter > 0 && length > 0)) {
    throw new RangeError(
      `cylinder requires diameters and length above 0 (diameter ${diameter} mm, end ${endDiameter} mm, length ${length} mm)`,
    );
  }
  const segments = facets(Math.max(diameter, endDiameter), chordError[surface]);
  const radius = (d: number): number => (sense === 'bore' ? circumscribed(d / 2, segments) : d / 2);
  const geometry = cylinderElliptic({
    height: length,
    startRadius: [radius(diameter), radius(diameter)],
    endRadius: [radius(endDiameter), radius(endDiameter)],
    segments,
    center: [0, 0, length / 2],
  });
  const upright: Shape = { kind: 'leaf', geometry };
  return moved(along[axis](sense === 'bore' ? turnedHalfAFacet(upright, segments) : upright), from);
}

/** As in `stadium`: across the axes a bore is measured from flat to flat. */
function turnedHalfAFacet(shape: Shape, segments: number): Shape {
  const [c, s] = [Math.cos(Math.PI / segments), Math.sin(Math.PI / segments)];
  return placed(shape, { rotation: [c, -s, 0, s, c, 0, 0, 0, 1], translation: [0, 0, 0] });
}

/** Smallest convex solid around shapes that were not yet combined; for lead-in chamfers. They may have been moved.
 *  Throws `RangeError` for a shape that is already a union, difference or intersection. */
export function hull(...of: Shape[]): Shape {
  return { kind: 'leaf', geometry: jscadHull(...of.map(leafGeometry)) };
}

function leafGeometry(shape: Shape): Geom3 {
  switch (shape.kind) {
    case 'leaf':
      return shape.geometry;
    case 'placed':
      return geometries.geom3.transform(matrix(shape.placement), leafGeometry(shape.of));
    default:
      throw new RangeError(`hull requires shapes that were not yet combined (${shape.kind})`);
  }
}
