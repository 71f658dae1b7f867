// JSCAD's booleans divide faces so that corners of one side of an edge lie on the other's: real seams. Manifold makes the
// same part by another route.
import { beforeAll, expect, test } from 'vitest';
import { donorSoundness } from '../../../src/donor/repair/donorSoundness.ts';
import { pairingOf } from '../../../src/donor/repair/pairing.ts';
import { sew } from '../../../src/donor/repair/sew.ts';
import { weldCorners } from '../../../src/donor/weldCorners.ts';
import { geometries } from '../../../src/solid/jscad.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { block, prism } from '../../../src/solid/primitives.ts';
import { realise } from '../../../src/solid/realise.ts';
import { difference, type Shape, union } from '../../../src/solid/shape.ts';
import type { Contour } from '../../../src/solid/vector.ts';
import { realiseWithJscad } from '../../bench/jscadBooleans.ts';
import { faultsOfMesh } from '../read/independent.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const ring = (radius: number, n: number, x: number, y: number): Contour =>
  Array.from({ length: n }, (_, k) => {
    const angle = (2 * Math.PI * (k + 0.5)) / n;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });

const plate = (n: number): Shape =>
  difference(
    union(block([0, 0, 0], [30, 20, 4]), prism('z', ring(4, n, 15, 10), 3, 10)),
    prism('z', ring(1.7, n, 5, 5), -1, 5),
    prism('z', ring(1.1, n, 15, 10), -1, 11),
    prism('x', ring(1.2, n, 10, 2), -1, 31),
  );

test.each([8, 16, 24, 32])('a plate with post and crossing bores of %d facets closes', (n) => {
  const corners = geometries.geom3
    .toPolygons(realiseWithJscad(plate(n)))
    .flatMap(({ vertices }) =>
      vertices.slice(2).flatMap((_, k) => [vertices[0]!, vertices[k + 1]!, vertices[k + 2]!].flat()),
    );
  // In 32 bits, as a file has them.
  const welded = weldCorners(Float64Array.from(corners, Math.fround));
  expect(pairingOf(welded.mesh).open.length).toBeGreaterThan(20);
  const { mesh, repairs } = sew(welded, null);
  expect(faultsOfMesh(mesh)).toEqual([]);
  expect(repairs.some(({ kind, count }) => kind === 'seams-split' && count > 5)).toBe(true);
  const sound = donorSoundness(mesh);
  withScope(kernel, (scope) => {
    const solid = realise(scope, plate(n));
    expect(sound.volume).toBeCloseTo(solid.volume(), 2);
    expect(sound).toMatchObject({ manifold: true, bodies: 1, genus: solid.genus() });
  });
});
