import { makeItem } from '@jscadui/3mf-export/src/makeItem.js';
import type { Mesh } from '../../solid/mesh.ts';
import { matrix } from '../../solid/placement.ts';
import { escapeText } from '../drawing/index.ts';
import { decimal32 } from './decimal32.ts';
import type { ThreeMfInput, ThreeMfItem, ThreeMfObject } from './threeMfInput.ts';

const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
/** Of metadata that the core specification has no name for: it wants them in a namespace of their own (3.4.1). */
const OWN = 'urn:fettle:3mf:1';

const MATERIAL_ID = 1;
const FIRST_OBJECT_ID = 2;
/** A base material must have a colour (5.1). Nobody said which one the filament has; this is the ink of the drawings. */
const COLOUR = '#1F5FA8';

/** The model part of a package, XML 1.0 in UTF-8. Throws as `threeMf` says. */
export function modelPart(input: ThreeMfInput): string {
  const { objects, items, material } = input;
  if (objects.length === 0 || items.length === 0)
    throw new RangeError(
      `threeMf requires at least 1 object and 1 item (objects ${objects.length}, items ${items.length})`,
    );
  // People write in any language, and nobody said which: then "und" it must be (2.3.5).
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<model unit="millimeter" xml:lang="und" xmlns="${CORE}" xmlns:fettle="${OWN}">`,
    ...metadata(input),
    ' <resources>',
    `  <basematerials id="${MATERIAL_ID}">`,
    `   <base name="${words(material)}" displaycolor="${COLOUR}"/>`,
    '  </basematerials>',
  ];
  objects.forEach((each, k) => {
    pushObject(lines, each, k);
  });
  lines.push(' </resources>', ' <build>');
  for (const item of items) lines.push(itemOf(item, objects.length));
  lines.push(' </build>', '</model>', '');
  return lines.join('\n');
}

/** Text in one line that means itself. */
const words = (text: string): string => escapeText(text.replace(/[ \t\r\n]+/g, ' ').trim());

function metadata(input: ThreeMfInput): string[] {
  const { title, author, licence, description, application, hash, material, printer } = input;
  const entries: readonly (readonly [string, string | undefined])[] = [
    ['Title', title],
    ['Designer', author],
    ['Description', description],
    ['LicenseTerms', licence],
    ['Application', application],
    ['fettle:JobHash', hash],
    ['fettle:Material', material],
    ['fettle:Printer', printer],
  ];
  return entries.flatMap(([name, text]) => {
    if (text === undefined || text === '') return [];
    // Whoever passes the file on is asked to keep what only the maker knows.
    const preserve = name.startsWith('fettle:') ? ' preserve="1"' : '';
    return [` <metadata name="${name}"${preserve}>${words(text)}</metadata>`];
  });
}

function pushObject(lines: string[], { name, partNumber, mesh }: ThreeMfObject, k: number): void {
  hold(mesh, name);
  const { positions, triangles } = mesh;
  const number = partNumber ? ` partnumber="${words(partNumber)}"` : '';
  lines.push(
    `  <object id="${FIRST_OBJECT_ID + k}" type="model" name="${words(name)}"${number} pid="${MATERIAL_ID}" pindex="0">`,
    '   <mesh>',
    '    <vertices>',
  );
  for (let v = 0; v < positions.length; v += 3) {
    const [x, y, z] = [0, 1, 2].map((axis) => decimal32(positions[v + axis]!));
    lines.push(`     <vertex x="${x}" y="${y}" z="${z}"/>`);
  }
  lines.push('    </vertices>', '    <triangles>');
  for (let t = 0; t < triangles.length; t += 3)
    lines.push(`     <triangle v1="${triangles[t]}" v2="${triangles[t + 1]}" v3="${triangles[t + 2]}"/>`);
  lines.push('    </triangles>', '   </mesh>', '  </object>');
}

function hold({ positions, triangles }: Mesh, name: string): void {
  const refuse = (what: string, given: string) =>
    new RangeError(`threeMf requires ${what} (object ${JSON.stringify(name)}, ${given})`);
  if (triangles.length === 0 || triangles.length % 3 !== 0)
    throw refuse('3 vertex numbers a triangle and at least 1 triangle', `${triangles.length} vertex numbers`);
  const odd = positions.findIndex((coordinate) => !Number.isFinite(coordinate));
  if (odd !== -1) throw refuse('finite coordinates', `vertex ${Math.floor(odd / 3)}: ${positions[odd]} mm`);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    if (Math.max(a, b, c) >= positions.length / 3 || a === b || b === c || c === a)
      throw refuse(
        `three different vertex numbers below ${positions.length / 3}`,
        `triangle ${t / 3}: ${a}, ${b}, ${c}`,
      );
  }
}

function itemOf({ object, placement }: ThreeMfItem, objects: number): string {
  if (!(Number.isInteger(object) && object >= 0 && object < objects))
    throw new RangeError(`threeMf requires items of objects 0 to ${objects - 1} (given ${object})`);
  if (![...placement.rotation, ...placement.translation].every(Number.isFinite))
    throw new RangeError(`threeMf requires placements of finite numbers (item of object ${object})`);
  // Columns of a matrix for points that are columns are the rows of one for points that are rows, as 3MF has them (3.3).
  return makeItem(FIRST_OBJECT_ID + object, matrix(placement)).trimEnd();
}
