import type { ZipArchive } from '../../archive/zipArchive.ts';
import { DonorRefusal } from '../donorRefusal.ts';
import { repair } from '../repair/repairSentence.ts';
import { type Sewn, sew } from '../repair/sew.ts';
import type { DonorMesh, DonorRemark, LengthUnit, Repair } from '../types.ts';
import { weldVertices } from '../weldCorners.ts';
import { donorArchive } from './donorArchive.ts';
import { holdTriangles, limits } from './limits.ts';
import { type ModelObject, type ModelPart, modelPart, type Reference } from './modelPart.ts';
import { chain, inPlace, moved, place, type Transform } from './transform.ts';
import type { Progress } from './triangleSoup.ts';
import { XmlReader } from './xmlReader.ts';

/** The objects of a 3MF, each sound, where the build puts them. */
export interface ReadThreeMf {
  readonly mesh: DonorMesh;
  readonly declaredUnit: LengthUnit;
  /** Triangles as the file has them, objects as often as they are placed. */
  readonly triangles: number;
  readonly repairs: readonly Repair[];
  readonly remarks: readonly DonorRemark[];
}

/** An object with a mesh, where it goes. */
interface Placed {
  readonly key: string;
  readonly object: ModelObject & { readonly mesh: DonorMesh };
  readonly transform: Transform;
}

const MODEL_RELATIONSHIP = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel';
const USUAL_PLACE = '3D/3dmodel.model';

/** Reads a 3MF: the model that the package's relationships name, its objects and components with their transforms,
 *  objects in other parts of the package. Each object is made sound on its own, so bodies that touch stay two. Supports
 *  are left out. Throws what `donorArchive`, `modelPart` and `sew` throw, and `donor_empty`. */
export function threeMf(bytes: Uint8Array, onProgress?: Progress): ReadThreeMf {
  const archive = donorArchive(bytes);
  const remarks: DonorRemark[] = [];
  const root = rootPart(archive, remarks);
  const parts = new Map<string, ModelPart>();
  const partOf = (name: string): ModelPart => {
    const known = parts.get(name.toLowerCase());
    if (known) return known;
    const found = archive.part(name);
    if (found === null)
      throw new DonorRefusal(
        'donor_archive_damaged',
        `no part ${name} in the archive`,
        'a whole 3MF archive',
      );
    const read = modelPart(found, name, (share) => onProgress?.(0.5 * share));
    parts.set(name.toLowerCase(), read);
    return read;
  };
  const model = partOf(root);
  const placed = expand(root, itemsOf(model, remarks), partOf, remarks);
  if (placed.length === 0)
    throw new DonorRefusal('donor_empty', 'a 3MF without an object to build', 'a model with a surface');
  return { declaredUnit: model.unit, remarks, ...assemble(placed, onProgress) };
}

function rootPart(archive: Pick<ZipArchive, 'has' | 'part'>, remarks: DonorRemark[]): string {
  const relationships = archive.part('_rels/.rels');
  if (relationships !== null) {
    const reader = new XmlReader(relationships, '_rels/.rels');
    for (let event = reader.next(); event !== 'over'; event = reader.next()) {
      if (event !== 'start' || !reader.is('Relationship')) continue;
      if (reader.attribute('Type') !== MODEL_RELATIONSHIP) continue;
      if (reader.attribute('TargetMode') === 'External')
        throw new DonorRefusal('donor_archive_unsafe', 'a model outside of the archive', 'a model inside it');
      return partName(reader.attribute('Target') ?? '');
    }
  }
  if (!archive.has(USUAL_PLACE))
    throw new DonorRefusal(
      'donor_format_unknown',
      'a ZIP archive without a 3D model in it',
      'an STL or a 3MF',
    );
  remarks.push({ kind: 'header-odd', sentence: `nothing names the model; ${USUAL_PLACE} was taken` });
  return USUAL_PLACE;
}

/** Name of a part from a target or a path, which may be relative to the root of the package. */
function partName(target: string): string {
  let name = target;
  try {
    name = decodeURIComponent(target);
  } catch {
    // A lone percent sign stands for itself.
  }
  const steps = name.split('/').filter((step) => step !== '' && step !== '.');
  if (steps.length === 0 || steps.includes('..') || /[\\:]/.test(name))
    throw new DonorRefusal(
      'donor_archive_unsafe',
      `a part named ${JSON.stringify(target.slice(0, 60))}`,
      'names that stay inside the archive',
    );
  return steps.join('/');
}

/** What is built; where the build is empty, every object that is not part of another one. */
function itemsOf({ items, objects }: ModelPart, remarks: DonorRemark[]): readonly Reference[] {
  if (items.length > 0) return items;
  const inside = new Set([...objects.values()].flatMap(({ components }) => components.map(({ id }) => id)));
  const free = [...objects.keys()].filter((id) => !inside.has(id));
  if (free.length > 0)
    remarks.push({ kind: 'not-placed', sentence: 'nothing is placed in the build; every object was taken' });
  return free.map((id) => ({ path: null, id, transform: inPlace }));
}

/** Follows components down to meshes. Holds their number to the limits while it grows: a few nested objects can name
 *  more triangles than any memory has. */
function expand(
  root: string,
  items: readonly Reference[],
  partOf: (name: string) => ModelPart,
  remarks: DonorRemark[],
): Placed[] {
  const placed: Placed[] = [];
  let [triangles, visits, supports] = [0, 0, 0];
  const follow = (from: string, { path, id, transform }: Reference, above: readonly string[]): void => {
    const name = path === null ? from : partName(path);
    const object = partOf(name).objects.get(id);
    const key = `${name} ${id}`;
    const refuse = (given: string, allowed: string) =>
      new DonorRefusal('donor_model_unclear', given, allowed);
    if (object === undefined)
      throw refuse(`object ${id} is named and not there`, 'ids of objects in the file');
    if (above.includes(key)) throw refuse(`object ${id} is part of itself`, 'components without a circle');
    if (above.length === limits.depth)
      throw refuse('components deep inside one another', `${limits.depth} levels at most`);
    if (++visits > limits.placements)
      throw new DonorRefusal(
        'donor_too_large',
        `more than ${limits.placements} objects in place`,
        `at most ${limits.placements}`,
      );
    if (object.type === 'support' || object.type === 'solidsupport') {
      supports++;
      return;
    }
    const { mesh } = object;
    if (mesh !== null && mesh.triangles.length > 0) {
      triangles += mesh.triangles.length / 3;
      holdTriangles(triangles);
      placed.push({ key, object: { ...object, mesh }, transform });
    }
    for (const component of object.components)
      follow(name, { ...component, transform: chain(component.transform, transform) }, [...above, key]);
  };
  for (const item of items) follow(root, item, []);
  if (supports > 0)
    remarks.push({
      kind: 'support-left-out',
      sentence: `${supports} ${supports === 1 ? 'object is a support and was' : 'objects are supports and were'} left out`,
    });
  return placed;
}

/** Makes each object sound once and puts it wherever it is placed. */
function assemble(
  placed: readonly Placed[],
  onProgress?: Progress,
): Pick<ReadThreeMf, 'mesh' | 'triangles' | 'repairs'> {
  const sewn = new Map<string, Sewn>();
  const repairs: Repair[] = [];
  let done = 0;
  for (const { key, object, transform } of placed) {
    if (!sewn.has(key)) {
      const made = sewObject(object, transform);
      repairs.push(
        ...made.repairs.map(({ kind, count, at }) => repair(kind, count, at && moved(transform, at))),
      );
      sewn.set(key, made);
    }
    onProgress?.(0.5 + (0.5 * ++done) / placed.length);
  }
  const meshes = placed.map(({ key }) => sewn.get(key)!.mesh);
  const into = {
    positions: new Float64Array(meshes.reduce((sum, { positions }) => sum + positions.length, 0)),
    triangles: new Uint32Array(meshes.reduce((sum, { triangles }) => sum + triangles.length, 0)),
  };
  let [vertex, half] = [0, 0];
  placed.forEach(({ transform }, k) => {
    place(meshes[k]!, transform, into, vertex, half);
    vertex += meshes[k]!.positions.length / 3;
    half += meshes[k]!.triangles.length;
  });
  const triangles = placed.reduce((sum, { object }) => sum + object.mesh.triangles.length / 3, 0);
  return { mesh: into, triangles, repairs };
}

function sewObject({ id, name, mesh }: Placed['object'], transform: Transform): Sewn {
  try {
    return sew(weldVertices(mesh), null);
  } catch (error) {
    if (!(error instanceof DonorRefusal)) throw error;
    const which = name === '' ? `object ${id}` : `object ${id} "${name.slice(0, 40)}"`;
    throw new DonorRefusal(
      error.code,
      `${which}: ${error.given}`,
      error.allowed,
      error.at && moved(transform, error.at),
    );
  }
}
