import { geometries } from './jscad.ts';
import type { Shape } from './shape.ts';

/** What a shape says, as numbers that can be compared: JSCAD changes its geometries while it reads them, so that two of one content may look
 *  different. Shapes of the same content are realised to the same solid. */
export interface ShapeContent {
  readonly numbers: Float64Array;
  /** Positions and triangles of each mesh in it. */
  readonly meshes: readonly (Float64Array | Uint32Array)[];
}

const KIND = { leaf: 1, mesh: 2, placed: 3, union: 4, difference: 5, intersection: 6 } as const;

/** @example shapeContent(block([0, 0, 0], [1, 1, 1])).numbers.length // => 80: kind, number of faces, and 13 numbers a face */
export function shapeContent(shape: Shape): ShapeContent {
  const numbers: number[] = [];
  const meshes: (Float64Array | Uint32Array)[] = [];
  const write = (part: Shape): void => {
    numbers.push(KIND[part.kind]);
    switch (part.kind) {
      case 'leaf': {
        const polygons = geometries.geom3.toPolygons(part.geometry);
        numbers.push(polygons.length);
        for (const { vertices } of polygons) {
          numbers.push(vertices.length);
          for (const p of vertices) numbers.push(p[0]!, p[1]!, p[2]!);
        }
        return;
      }
      case 'mesh':
        meshes.push(part.mesh.positions, part.mesh.triangles);
        return;
      case 'placed':
        numbers.push(...part.placement.rotation, ...part.placement.translation);
        write(part.of);
        return;
      default:
        numbers.push(part.of.length);
        for (const one of part.of) write(one);
    }
  };
  write(shape);
  return { numbers: Float64Array.from(numbers), meshes };
}
