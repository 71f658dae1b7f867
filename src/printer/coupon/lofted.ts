import { extrudeLinear, geometries } from '../../solid/jscad.ts';
import type { Shape } from '../../solid/shape.ts';
import type { Contour, Vec2, Vec3 } from '../../solid/vector.ts';

/** A contour at a height, mm. */
export interface Ring {
  readonly contour: readonly Readonly<Vec2>[];
  readonly z: number;
}

/** Solid with upright or slanted sides through rings, lowest first: counter-clockwise contours with as many corners each,
 *  side for side parallel, so that the sides between are flat. One leaf, so that nothing has to be joined where
 *  prism and slope meet.
 *  Throws `RangeError` for fewer than 2 rings or a different number of corners. */
export function lofted(rings: readonly Ring[]): Shape {
  const [lowest] = rings;
  const highest = rings.at(-1);
  if (lowest === undefined || highest === undefined || lowest === highest)
    throw new RangeError(`lofted requires at least 2 rings (given ${rings.length})`);
  const count = lowest.contour.length;
  if (rings.some(({ contour }) => contour.length !== count))
    throw new RangeError(
      `lofted requires rings with as many corners each (given ${rings.map(({ contour }) => contour.length).join(', ')})`,
    );
  const corner = ({ contour, z }: Ring, k: number): Vec3 => [...contour[k % count]!, z] as Vec3;
  const sides = rings.slice(1).flatMap((upper, level) => {
    const lower = rings[level]!;
    return lower.contour.map((_, k) => [
      corner(lower, k),
      corner(lower, k + 1),
      corner(upper, k + 1),
      corner(upper, k),
    ]);
  });
  const cap = capOf(highest.contour);
  const faces = [
    ...sides,
    ...cap.map((triangle) => triangle.map((k) => corner(highest, k))),
    // Slopes are short beside the sides they hang on, so one way to cut the contour up serves all rings.
    ...cap.map((triangle) => triangle.toReversed().map((k) => corner(lowest, k))),
  ];
  return {
    kind: 'leaf',
    geometry: geometries.geom3.create(faces.map((face) => geometries.poly3.create(face))),
  };
}

/** A contour cut into triangles, as corner numbers, counter-clockwise: the upper face of its extrusion. */
function capOf(contour: Ring['contour']): number[][] {
  const plain = contour.map(([x, y]): Vec2 => [x, y]) as Contour;
  const solid = extrudeLinear({ height: 1 }, geometries.geom2.fromPoints(plain));
  const nearest = (p: ArrayLike<number>): number => {
    const away = plain.map(([x, y]) => Math.hypot(x - p[0]!, y - p[1]!));
    return away.indexOf(Math.min(...away));
  };
  return geometries.geom3
    .toPolygons(solid)
    .filter(({ vertices }) => vertices.every((p) => p[2]! > 0.5))
    .map(({ vertices }) => vertices.map(nearest));
}
