// Files written plainly, without any code of the project, for its readers to read.
import { strToU8, type Zippable, zipSync } from 'fflate';
import type { DonorMesh } from '../../src/donor/types.ts';

type Triple = readonly [number, number, number];

/** A mesh from lists of points and triangles. */
export const meshFrom = (points: readonly Triple[], triangles: readonly Triple[]): DonorMesh => ({
  positions: Float64Array.from(points.flat()),
  triangles: Uint32Array.from(triangles.flat()),
});

/** A block, twelve triangles, facing outward. */
export function blockMesh([x0, y0, z0]: Triple, [x1, y1, z1]: Triple): DonorMesh {
  const points = [z0, z1].flatMap((z): Triple[] => [
    [x0, y0, z],
    [x1, y0, z],
    [x1, y1, z],
    [x0, y1, z],
  ]);
  const quads = [
    [0, 3, 2, 1],
    [4, 5, 6, 7],
    [0, 1, 5, 4],
    [1, 2, 6, 5],
    [2, 3, 7, 6],
    [3, 0, 4, 7],
  ];
  return meshFrom(
    points,
    quads.flatMap(([a, b, c, d]): Triple[] => [
      [a!, b!, c!],
      [a!, c!, d!],
    ]),
  );
}

/** Several meshes in one, vertices kept apart. */
export function together(...meshes: readonly DonorMesh[]): DonorMesh {
  const points: number[] = [];
  const triangles: number[] = [];
  for (const mesh of meshes) {
    const first = points.length / 3;
    points.push(...mesh.positions);
    triangles.push(...[...mesh.triangles].map((v) => v + first));
  }
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(triangles) };
}

/** The mesh with some triangles taken out, turned, or added. */
export function altered(
  mesh: DonorMesh,
  { without = [], turned = [] }: { without?: readonly number[]; turned?: readonly number[] | 'all' },
): DonorMesh {
  const triangles: number[] = [];
  for (let t = 0; t < mesh.triangles.length / 3; t++) {
    if (without.includes(t)) continue;
    const [a, b, c] = mesh.triangles.subarray(3 * t, 3 * t + 3);
    triangles.push(a!, ...(turned === 'all' || turned.includes(t) ? [c!, b!] : [b!, c!]));
  }
  return { positions: mesh.positions, triangles: Uint32Array.from(triangles) };
}

/** Binary STL: 80 bytes of header, count, twelve 32-bit numbers and two bytes a triangle. */
export function plainStl({ positions, triangles }: DonorMesh, header = ''): Uint8Array<ArrayBuffer> {
  const count = triangles.length / 3;
  const file = new Uint8Array(84 + 50 * count);
  file.set(strToU8(header.slice(0, 80)));
  const view = new DataView(file.buffer);
  view.setUint32(80, count, true);
  for (let h = 0; h < triangles.length; h++)
    for (let k = 0; k < 3; k++)
      view.setFloat32(
        84 + 50 * Math.floor(h / 3) + 12 + 12 * (h % 3) + 4 * k,
        positions[3 * triangles[h]! + k]!,
        true,
      );
  return file;
}

/** STL in text. */
export function plainText(
  { positions, triangles }: DonorMesh,
  number: (value: number) => string = String,
): string {
  const lines = ['solid part'];
  for (let h = 0; h < triangles.length; h++) {
    if (h % 3 === 0) lines.push('  facet normal 0 0 0', '    outer loop');
    const [x, y, z] = positions.subarray(3 * triangles[h]!, 3 * triangles[h]! + 3);
    lines.push(`      vertex ${number(x!)} ${number(y!)} ${number(z!)}`);
    if (h % 3 === 2) lines.push('    endloop', '  endfacet');
  }
  return `${lines.join('\n')}\nendsolid part\n`;
}

/** `<mesh>` of a 3MF. */
export function meshXml({ positions, triangles }: DonorMesh): string {
  const vertices = Array.from(
    { length: positions.length / 3 },
    (_, v) => `<vertex x="${positions[3 * v]}" y="${positions[3 * v + 1]}" z="${positions[3 * v + 2]}"/>`,
  );
  const faces = Array.from(
    { length: triangles.length / 3 },
    (_, t) =>
      `<triangle v1="${triangles[3 * t]}" v2="${triangles[3 * t + 1]}" v3="${triangles[3 * t + 2]}"/>`,
  );
  return `<mesh><vertices>${vertices.join('\n')}</vertices><triangles>${faces.join('\n')}</triangles></mesh>`;
}

/** A model part of a 3MF around resources and build. */
export const modelXml = (resources: string, build: string, attributes = 'unit="millimeter"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<model ${attributes} xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">` +
  `<resources>${resources}</resources><build>${build}</build></model>`;

export const relationships = (target: string): string =>
  '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">' +
  `<Relationship Id="rel0" Target="${target}" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`;

/** A 3MF archive with this model, and more parts if given. */
export const threeMfFile = (model: string, more: Zippable = {}): Uint8Array<ArrayBuffer> =>
  zipSync({
    '_rels/.rels': strToU8(relationships('/3D/3dmodel.model')),
    '3D/3dmodel.model': strToU8(model),
    ...more,
  });

/** A 3MF with one object, built where it is. */
export const plainThreeMf = (mesh: DonorMesh): Uint8Array<ArrayBuffer> =>
  threeMfFile(modelXml(`<object id="1">${meshXml(mesh)}</object>`, '<item objectid="1"/>'));
