// The library writes what a package is made of; the model itself is written beside this file. The library's own model
// part names another program's namespace, puts texts in as they come, is dated by the clock, and knows no material.
import { FileForRelThumbnail, fileForContentTypes } from '@jscadui/3mf-export';
import { strToU8, zipSync } from 'fflate';
import { modelPart } from './modelPart.ts';
import type { ThreeMfInput } from './threeMfInput.ts';

const MODEL = '3D/3dmodel.model';
const THUMBNAIL = 'Metadata/thumbnail.png';

/** The earliest time a ZIP archive can state. Built from local parts because the archive states local time. */
const ALWAYS_THE_SAME = () => new Date(1980, 0, 1, 12);

/** Parts and their places on the bed as a 3MF package, in millimetres: each object once, as many items as there are copies,
 *  one base material, and what the file says about itself. Coordinates read back as the mesh's 32 bits. The same input
 *  gives the same bytes.
 *
 *  3MF Core Specification 1.2: package and relationships chapter 2, model and metadata 3.4, objects 4, base materials 5.
 *  Throws `RangeError` for no object, no item, an item of an object that is not there, and meshes that are not
 *  triangles of three vertices with finite coordinates.
 *  @example threeMf({ title: 'Clips', application: 'Fettle 0.1.0', hash, material: 'PETG', printer: 'printer 1',
 *    objects: [{ name: 'clip', mesh }], items: [{ object: 0, placement: identity }] }) */
export function threeMf(input: ThreeMfInput): Uint8Array<ArrayBuffer> {
  const { thumbnail } = input;
  const model = strToU8(modelPart(input));
  const relationships = new FileForRelThumbnail();
  relationships.add3dModel(`/${MODEL}`);
  if (thumbnail) relationships.addThumbnail(`/${THUMBNAIL}`);
  return zipSync(
    {
      [fileForContentTypes.name]: strToU8(fileForContentTypes.content),
      [relationships.name]: strToU8(relationships.content),
      [MODEL]: model,
      // Compressed once already.
      ...(thumbnail && { [THUMBNAIL]: [thumbnail, { level: 0 }] }),
    },
    { level: 9, mtime: ALWAYS_THE_SAME() },
  );
}
