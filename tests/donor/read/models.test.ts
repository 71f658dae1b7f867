// Models that nobody here made (tests/donor/models), read by three.js as well; sums by the test's own arithmetic.
import { readFileSync } from 'node:fs';
import { XMLParser } from 'fast-xml-parser';
import { unzipSync } from 'fflate';
import { beforeAll, describe, expect, test } from 'vitest';
import { DonorRefusal } from '../../../src/donor/donorRefusal.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { cornersOf, extentsOf, faultsOfMesh, threeCorners, volumeOf } from './independent.ts';

/** Elements as the general parser has them: one, or a list of several. */
type Some<T> = T | T[] | undefined;
interface Vertex {
  readonly x: string;
  readonly y: string;
  readonly z: string;
}
interface Triangle {
  readonly v1: string;
  readonly v2: string;
  readonly v3: string;
}
interface Placed {
  readonly objectid: string;
  readonly transform?: string;
}
interface ModelObject {
  readonly id: string;
  readonly mesh?: {
    readonly vertices: { vertex: Some<Vertex> };
    readonly triangles: { triangle: Some<Triangle> };
  };
  readonly components?: { readonly component: Some<Placed> };
}
interface Model {
  readonly resources: { readonly object: Some<ModelObject> };
  readonly build: { readonly item: Some<Placed> };
}

const fileOf = (name: string): Uint8Array => new Uint8Array(readFileSync(`tests/donor/models/${name}`));

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe.each([
  'plate_holes.STL',
  'idler_riser.STL',
  'featuretype.STL',
  'round.stl',
  'box.STL',
  'large_block.STL',
])('%s', (name) => {
  const file = fileOf(name);
  const donor = readDonor(file, name);
  const theirs = threeCorners(file);

  test('has the triangles, volume and extents that another reader finds', () => {
    expect(donor.format).toBe('stl-binary');
    expect(donor.triangles).toBe(theirs.length / 9);
    // Corners joined across a seam move by less than a millionth of the part.
    const corners = cornersOf(donor.mesh);
    expect(donor.sound.volume / volumeOf(theirs)).toBeCloseTo(1, 6);
    extentsOf(theirs).forEach((extent, k) => {
      expect(extentsOf(corners)[k]! / extent).toBeCloseTo(1, 6);
    });
  });

  test('is closed, and Manifold takes it as it is', () => {
    expect(faultsOfMesh(donor.mesh)).toEqual([]);
    expect(donor.sound.manifold).toBe(true);
    withScope(kernel, (scope) => {
      const mesh = new kernel.Mesh({
        numProp: 3,
        vertProperties: Float32Array.from(donor.mesh.positions),
        triVerts: donor.mesh.triangles,
      });
      const solid = scope.keep(new kernel.Manifold(mesh));
      expect(solid.status()).toBe('NoError');
      expect(solid.volume() / donor.sound.volume).toBeCloseTo(1, 5);
      const pieces = scope.keepAll(solid.decompose());
      expect(pieces.length).toBe(donor.sound.bodies);
      expect(pieces.reduce((sum, piece) => sum + piece.genus(), 0)).toBe(donor.sound.genus);
    });
  });
});

test('a drilled plate has the extents that its source states, about 203 x 305 x 13', () => {
  const { mesh } = readDonor(fileOf('plate_holes.STL'), 'plate_holes.STL');
  expect(
    extentsOf(cornersOf(mesh))
      .map(Math.round)
      .sort((a, b) => a - b),
  ).toEqual([13, 203, 305]);
});

test('a header that begins with solid does not make a text of a binary file', () => {
  const file = fileOf('idler_riser.STL');
  expect(new TextDecoder().decode(file.subarray(0, 5))).toBe('solid');
  expect(readDonor(file, 'idler_riser.STL').format).toBe('stl-binary');
});

test('two solids in one text, faces at odds, come out facing outward', () => {
  const file = fileOf('multibody.stl');
  const donor = readDonor(file, 'multibody.stl');
  expect(donor).toMatchObject({
    format: 'stl-ascii',
    triangles: 32,
    sound: { manifold: true, bodies: 2, genus: 0 },
  });
  expect(faultsOfMesh(donor.mesh)).toEqual([]);
  expect(donor.repairs.map(({ kind }) => kind)).toEqual(['faces-turned', 'turned-outward']);
  expect(donor.remarks.map(({ kind }) => kind)).toEqual(['several-solids']);
  // Whichever way they face, the faces of a solid without dents enclose the pyramids over them seen from its middle.
  const theirs = threeCorners(file);
  const facesOfB = new TextDecoder()
    .decode(file)
    .split('endsolid')[0]!
    .match(/endfacet/g)!.length;
  const pyramids = (corners: Float64Array): number => {
    const middle = [0, 1, 2].map((k) => {
      const along = corners.filter((_, n) => n % 3 === k);
      return (Math.min(...along) + Math.max(...along)) / 2;
    });
    const about = corners.map((x, n) => x - middle[n % 3]!);
    let sum = 0;
    for (let t = 0; t < about.length; t += 9) {
      const [ax, ay, az, bx, by, bz, cx, cy, cz] = about.subarray(t, t + 9) as unknown as number[];
      sum += Math.abs(
        ax! * (by! * cz! - bz! * cy!) - ay! * (bx! * cz! - bz! * cx!) + az! * (bx! * cy! - by! * cx!),
      );
    }
    return sum / 6;
  };
  const outside = pyramids(theirs.slice(0, 9 * facesOfB)) + pyramids(theirs.slice(9 * facesOfB));
  expect(donor.sound.volume).toBeGreaterThan(0);
  expect(donor.sound.volume).toBeLessThanOrEqual(outside * (1 + 1e-6));
});

test('triangles that share nothing are refused with the number of open edges and a place', () => {
  const refusal = refusalOf(fileOf('soup.stl'));
  expect(refusal.code).toBe('donor_surface_open');
  expect(refusal.message).toMatch(/open along 300 edges/);
  expect(refusal.at).toBeDefined();
});

test.each(['empty.stl', 'stl_empty_ascii.stl'])('%s is refused as empty', (name) => {
  expect(refusalOf(fileOf(name)).code).toBe('donor_empty');
});

test('a pyramid of a test set of 3MF has the volume of its closed form', () => {
  const donor = readDonor(fileOf('P_XPM_0331_01.3mf'), 'P_XPM_0331_01.3mf');
  expect(donor).toMatchObject({ format: '3mf', declaredUnit: 'mm', triangles: 6 });
  expect(donor.sound).toMatchObject({ manifold: true, bodies: 1, genus: 0 });
  // Base a right triangle with legs of 100, height 100; two of its five vertices are in one place.
  expect(donor.sound.volume).toBeCloseTo((100 * 100 * 100) / 6, 6);
  expect(donor.mesh.triangles.length).toBe(3 * 4);
});

test('objects, components and transforms of a 3MF as a general XML parser and plain sums have them', () => {
  const file = fileOf('pyramids.3mf');
  const donor = readDonor(file, 'pyramids.3mf');
  const xml = new TextDecoder().decode(unzipSync(file)['3D/3dmodel.model']);
  const list = <T>(x: Some<T>): T[] => (x === undefined ? [] : Array.isArray(x) ? x : [x]);
  const { model }: { model: Model } = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '',
  }).parse(xml);
  const place = (corners: number[], text: string | undefined): number[] => {
    if (text === undefined) return corners;
    const m = text.split(' ').map(Number);
    return corners.map((_, n) => {
      const [v, k] = [n - (n % 3), n % 3];
      return corners[v]! * m[k]! + corners[v + 1]! * m[3 + k]! + corners[v + 2]! * m[6 + k]! + m[9 + k]!;
    });
  };
  const cornersOfObject = (id: string): number[] => {
    const object = list(model.resources.object).find((each) => each.id === id)!;
    const points = list(object.mesh?.vertices.vertex);
    const own = list(object.mesh?.triangles.triangle).flatMap(({ v1, v2, v3 }) =>
      [v1, v2, v3].flatMap((v) =>
        [points[Number(v)]!].flatMap(({ x, y, z }) => [Number(x), Number(y), Number(z)]),
      ),
    );
    const parts = list(object.components?.component).flatMap(({ objectid, transform }) =>
      place(cornersOfObject(objectid), transform),
    );
    return [...own, ...parts];
  };
  const theirs = Float64Array.from(
    list(model.build.item).flatMap(({ objectid, transform }) => place(cornersOfObject(objectid), transform)),
  );
  expect(donor.triangles).toBe(theirs.length / 9);
  expect(donor.sound.volume).toBeCloseTo(volumeOf(theirs), 6);
  extentsOf(theirs).forEach((extent, k) => {
    expect(extentsOf(cornersOf(donor.mesh))[k]).toBeCloseTo(extent, 9);
  });
  // Six pyramids with and without letters, and three boxes each with its pyramid.
  expect(donor.sound).toMatchObject({ manifold: true, bodies: 12 });
  expect(faultsOfMesh(donor.mesh)).toEqual([]);
});

function refusalOf(file: Uint8Array): DonorRefusal {
  try {
    readDonor(file, 'model');
  } catch (error) {
    if (error instanceof DonorRefusal) return error;
    throw error;
  }
  throw new Error('it was read');
}
