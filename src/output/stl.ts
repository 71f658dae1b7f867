// The package's own `serialize` first snaps vertices together, which moves them and can open a mesh that Manifold
// closed. These are its two writers without that step: they write down what they are given.
import textWriter from '@jscad/stl-serializer/CSGToStla.js';
import binaryWriter from '@jscad/stl-serializer/CSGToStlb.js';
import { geometries } from '../solid/jscad.ts';
import { type Mesh, vertexAt } from '../solid/mesh.ts';
import { cross, lengthOf, subtract, type Vec3 } from '../solid/vector.ts';

/** What the file says about itself. An STL holds no unit, so the header is the only place for it. */
interface StlLabel {
  /** Name of the part, any text; what is not plain ASCII is written as `-`. */
  readonly part: string;
  readonly unit: 'mm';
  /** Hash of the job, hex. */
  readonly hash: string;
}

export interface StlOptions extends StlLabel {
  /** Text in place of the usual binary file. */
  readonly ascii?: boolean;
}

const HEADER_BYTES = 80;
/** Header and number of triangles. */
const PREFIX_BYTES = HEADER_BYTES + 4;
const HASH_DIGITS = 32;
/** What the hash and the words of the header leave for the name of the part. */
const LONGEST_NAME = HEADER_BYTES - HASH_DIGITS - 'fettle STL, , mm, job '.length;

/** The mesh as an STL file, coordinates in mm, triangles in the order of the mesh, outward normals of unit length.
 *  Binary: 80 bytes of header, count, 50 bytes a triangle, little-endian; vertices are the mesh's 32-bit numbers bit
 *  for bit. Text: the same triangles, each number written so that it reads back as the same 32 bits.
 *  The same mesh and label give the same bytes.
 *
 *  Layout: the two formats of StereoLithography Interface Specification, 3D Systems, 1989 (from memory of it).
 *  Throws `RangeError` for a mesh without triangles, a vertex number outside the mesh, a coordinate that is no finite
 *  number, or a triangle of zero area: no such thing reaches a file.
 *  @example stl(cube, { part: 'cube', unit: 'mm', hash: 'ab12' }).length // => 684, for 12 triangles */
export function stl(mesh: Mesh, { ascii = false, ...label }: StlOptions): Uint8Array<ArrayBuffer> {
  const geometry = geometries.geom3.create(polygonsOf(mesh));
  return ascii ? textFile(geometry, label) : binaryFile(geometry, label);
}

type Geometry = ReturnType<typeof geometries.geom3.create>;

function binaryFile(geometry: Geometry, label: StlLabel): Uint8Array<ArrayBuffer> {
  const [, count, triangles] = binaryWriter.serializeBinary([geometry], {});
  const file = new Uint8Array(PREFIX_BYTES + triangles.byteLength);
  file.set(header(label));
  file.set(new Uint8Array(count), HEADER_BYTES);
  file.set(new Uint8Array(triangles), PREFIX_BYTES);
  return file;
}

/** Readers take a file that begins with `solid` for text, so this begins otherwise. Padded with spaces. */
function header({ part, unit, hash }: StlLabel): Uint8Array {
  const text = `fettle STL, ${plain(part)}, ${unit}, job ${hash.slice(0, HASH_DIGITS)}`;
  return new TextEncoder().encode(text.padEnd(HEADER_BYTES));
}

function textFile(geometry: Geometry, { part, unit, hash }: StlLabel): Uint8Array<ArrayBuffer> {
  const [text] = textWriter.serializeText([geometry], {});
  const name = `${plain(part)} ${unit} ${hash}`;
  // The writer names every solid after itself, in its first and its last line.
  const facets = text.slice(text.indexOf('\n') + 1, text.lastIndexOf('endsolid'));
  return new TextEncoder().encode(`solid ${name}\n${facets}endsolid ${name}\n`);
}

/** One printable ASCII word: blanks would end the name of a solid for some readers. */
const plain = (text: string): string =>
  text
    .trim()
    .replace(/[^\x21-\x7e]+/g, '-')
    .slice(0, LONGEST_NAME) || 'part';

function polygonsOf(mesh: Mesh) {
  const { triangles } = mesh;
  if (triangles.length === 0 || triangles.length % 3 !== 0) {
    throw new RangeError(
      `stl requires 3 vertex numbers a triangle and at least 1 triangle (given ${triangles.length} vertex numbers)`,
    );
  }
  return Array.from({ length: triangles.length / 3 }, (_, t) => {
    const corners = [corner(mesh, t, 0), corner(mesh, t, 1), corner(mesh, t, 2)] as const;
    const [a, b, c] = corners;
    // Coordinates of 32 bits in arithmetic of 64: the product neither overflows nor vanishes above 1e-45 mm.
    if (!(lengthOf(cross(subtract(b, a), subtract(c, a))) > 0)) {
      throw new RangeError(
        `stl requires triangles of area above 0 (triangle ${t}, corners ${show(corners)} mm)`,
      );
    }
    return geometries.poly3.create([...corners]);
  });
}

function corner(mesh: Mesh, triangle: number, k: number): Vec3 {
  const vertex = mesh.triangles[3 * triangle + k]!;
  if (3 * vertex + 2 >= mesh.positions.length) {
    throw new RangeError(
      `stl requires vertex numbers below ${mesh.positions.length / 3} (triangle ${triangle}, vertex ${vertex})`,
    );
  }
  const position = vertexAt(mesh, vertex);
  if (!position.every(Number.isFinite)) {
    throw new RangeError(
      `stl requires coordinates that are finite in 32 bits (triangle ${triangle}, vertex ${vertex}, ${position.join(' ')} mm)`,
    );
  }
  return position;
}

const show = (corners: readonly Vec3[]): string => corners.map((each) => each.join(' ')).join(', ');
