import { DonorRefusal } from '../donorRefusal.ts';
import type { DonorMesh, LengthUnit } from '../types.ts';
import { holdTriangles } from './limits.ts';
import { inPlace, readTransform, type Transform } from './transform.ts';
import type { Progress } from './triangleSoup.ts';
import { XmlReader } from './xmlReader.ts';

/** One object that stands somewhere: in the build, or inside another one. */
export interface Reference {
  /** Name of the part the object is in; null for the part that says so. */
  readonly path: string | null;
  readonly id: string;
  readonly transform: Transform;
}

export interface ModelObject {
  readonly id: string;
  readonly name: string;
  /** `model`, `solidsupport`, `support`, `surface`, `other`. */
  readonly type: string;
  readonly mesh: DonorMesh | null;
  readonly components: readonly Reference[];
}

/** What one model part of a 3MF holds. */
export interface ModelPart {
  readonly unit: LengthUnit;
  readonly objects: ReadonlyMap<string, ModelObject>;
  readonly items: readonly Reference[];
}

const PRODUCTION = 'http://schemas.microsoft.com/3dmanufacturing/production/2015/06';
const isCore = (space: string): boolean => space.includes('/3dmanufacturing/core/');

/** Extensions that change no surface, or are read here. Any other one that a file requires may. */
const knownExtensions: readonly RegExp[] = [
  /\/3dmanufacturing\/core\//,
  /\/3dmanufacturing\/material\//,
  /\/3dmanufacturing\/production\//,
  /\/3dmanufacturing\/trianglesets\//,
];

/** Core specification 1.3, section 3.4: the values of `unit`. */
const units: Readonly<Record<string, LengthUnit>> = {
  micron: 'micron',
  millimeter: 'mm',
  centimeter: 'cm',
  inch: 'inch',
  foot: 'foot',
  meter: 'metre',
};

const STRIDE = 2 ** 14;

/** Reads a model part: unit, objects with their meshes or components, and what is built. Names, colours, pictures and
 *  whatever belongs to other namespaces are passed over. 3MF Core Specification 1.3, chapters 3 and 4; objects in other
 *  parts after the Production Extension 1.1, section 2.
 *  Throws `donor_model_unclear` with the line, `donor_extension_unknown`, `donor_too_large`. */
export function modelPart(bytes: Uint8Array, part: string, onProgress?: Progress): ModelPart {
  const reader = new XmlReader(bytes, part);
  if (reader.next() !== 'start' || !reader.is('model') || !isCore(reader.space))
    throw reader.unclear('it does not begin with a 3MF model', 'a model of the core specification');
  const named = reader.attribute('unit') ?? 'millimeter';
  const unit = units[named];
  if (unit === undefined) throw reader.unclear(`the unit "${named}"`, Object.keys(units).join(', '));
  holdExtensions(reader);

  const objects = new Map<string, ModelObject>();
  const items: Reference[] = [];
  for (;;) {
    const event = reader.next();
    if (event === 'over') return { unit, objects, items };
    if (event === 'end' || !isCore(reader.space)) continue;
    if (reader.is('object')) {
      const object = readObject(reader, onProgress);
      if (objects.has(object.id)) throw reader.unclear(`a second object ${object.id}`, 'ids used once');
      objects.set(object.id, object);
    } else if (reader.is('item')) items.push(reference(reader));
  }
}

function holdExtensions(reader: XmlReader): void {
  for (const prefix of (reader.attribute('requiredextensions') ?? '').split(/\s+/)) {
    if (prefix === '') continue;
    const space = reader.spaceOf(prefix);
    if (!knownExtensions.some((known) => known.test(space)))
      throw new DonorRefusal(
        'donor_extension_unknown',
        `the model requires the extension ${space || prefix}`,
        'plain meshes, with materials, production and triangle sets at most',
      );
  }
}

function required(reader: XmlReader, name: string): string {
  const value = reader.attribute(name);
  if (value === undefined)
    throw reader.unclear(`${reader.name} without ${name}`, `${reader.name} with ${name}`);
  return value;
}

function reference(reader: XmlReader): Reference {
  const text = reader.attribute('transform');
  const transform = text === undefined ? inPlace : readTransform(text);
  if (transform === undefined)
    throw reader.unclear(`the transform "${text!.slice(0, 80)}"`, 'twelve numbers that keep a volume');
  return { path: reader.attribute('path', PRODUCTION) ?? null, id: required(reader, 'objectid'), transform };
}

function readObject(reader: XmlReader, onProgress?: Progress): ModelObject {
  const id = required(reader, 'id');
  const name = reader.attribute('name') ?? '';
  const type = reader.attribute('type') ?? 'model';
  const outside = reader.depth - 1;
  const components: Reference[] = [];
  let mesh: DonorMesh | null = null;
  while (reader.depth > outside) {
    const event = reader.next();
    if (event === 'end' || !isCore(reader.space)) continue;
    if (reader.is('mesh')) mesh = readMesh(reader, id, onProgress);
    else if (reader.is('component')) components.push(reference(reader));
  }
  return { id, name, type, mesh, components };
}

const triangleWith = (name: string, text: string | undefined): string =>
  text === undefined ? `triangle without ${name}` : `triangle with ${name} "${text}"`;

function readMesh(reader: XmlReader, id: string, onProgress?: Progress): DonorMesh {
  const outside = reader.depth - 1;
  let positions = new Float64Array(3 * 64);
  let triangles = new Uint32Array(3 * 64);
  let [vertices, halves, tags] = [0, 0, 0];
  const coordinate = (name: string): number => {
    const value = reader.number(name);
    if (value === undefined) throw reader.unclear(`vertex without ${name}`, 'x, y and z');
    return value;
  };
  const corner = (name: string): number => {
    const value = reader.number(name);
    if (value === undefined || !Number.isInteger(value) || value < 0 || value > 0xfffffffe)
      throw reader.unclear(triangleWith(name, reader.attribute(name)), 'numbers of vertices');
    return value;
  };
  while (reader.depth > outside) {
    if (reader.next() !== 'start') continue;
    if (++tags % STRIDE === 0) onProgress?.(reader.share);
    if (reader.is('vertex') && isCore(reader.space)) {
      if (3 * vertices === positions.length) positions = twice(positions, Float64Array);
      positions[3 * vertices] = coordinate('x');
      positions[3 * vertices + 1] = coordinate('y');
      positions[3 * vertices + 2] = coordinate('z');
      vertices++;
    } else if (reader.is('triangle') && isCore(reader.space)) {
      if (halves === triangles.length) triangles = twice(triangles, Uint32Array);
      triangles[halves++] = corner('v1');
      triangles[halves++] = corner('v2');
      triangles[halves++] = corner('v3');
      holdTriangles(halves / 3);
    }
  }
  triangles = triangles.slice(0, halves);
  for (const v of triangles)
    if (v >= vertices)
      throw reader.unclear(`object ${id} names vertex ${v}`, `vertices 0 to ${vertices - 1}`);
  return { positions: positions.slice(0, 3 * vertices), triangles };
}

function twice<T extends Float64Array | Uint32Array>(array: T, Kind: new (length: number) => T): T {
  const larger = new Kind(2 * array.length);
  larger.set(array);
  return larger;
}
