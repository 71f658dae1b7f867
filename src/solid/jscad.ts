// The one door to JSCAD. It is a CommonJS package whose sub-modules are named here one by one, because loading
// the whole of it costs several times what the parts in use cost.
import geom2 from '@jscad/modeling/src/geometries/geom2/index.js';
import geom3 from '@jscad/modeling/src/geometries/geom3/index.js';
import poly3 from '@jscad/modeling/src/geometries/poly3/index.js';
import measureVolumeModule from '@jscad/modeling/src/measurements/measureVolume.js';
import extrudeLinearModule from '@jscad/modeling/src/operations/extrusions/extrudeLinear.js';
import hullModule from '@jscad/modeling/src/operations/hulls/hull.js';
import cuboidModule from '@jscad/modeling/src/primitives/cuboid.js';
import cylinderEllipticModule from '@jscad/modeling/src/primitives/cylinderElliptic.js';
import vectorTextModule from '@jscad/modeling/src/text/vectorText.js';

/** JSCAD's declarations promise `exports.default`; its modules export the function itself. */
const itself = <T>(module: { default: T }): T => module as unknown as T;

export const geometries = { geom2, geom3, poly3 };
export const measureVolume = itself(measureVolumeModule);
export const extrudeLinear = itself(extrudeLinearModule);
export const hull = itself(hullModule);
export const cuboid = itself(cuboidModule);
export const cylinderElliptic = itself(cylinderEllipticModule);
/** Strokes of a line of text, each a row of points; declared for one stroke, gives a list of them. */
export const vectorText = vectorTextModule as unknown as (
  options: { readonly height: number },
  text: string,
) => [number, number][][];
