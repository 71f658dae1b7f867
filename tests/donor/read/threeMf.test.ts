// 3MF Core Specification 1.3: units (3.4), build items (3.5), row-vector transforms (3.3), components (4.2); Production
// Extension 1.1: objects in other parts. ZIP: APPNOTE 6.3. Volumes and places are closed forms.
import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { DonorRefusal } from '../../../src/donor/donorRefusal.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import type { ReadDonor } from '../../../src/donor/types.ts';
import { altered, blockMesh, meshXml, modelXml, plainThreeMf, relationships, threeMfFile } from '../files.ts';
import { cornersOf, extentsOf, faultsOfMesh, volumeOf } from './independent.ts';

const cube = blockMesh([0, 0, 0], [2, 2, 2]);
const object = (id: number, inside = meshXml(cube), attributes = ''): string =>
  `<object id="${id}" ${attributes}>${inside}</object>`;
const item = (id: number, transform = ''): string =>
  `<item objectid="${id}"${transform === '' ? '' : ` transform="${transform}"`}/>`;
const read = (file: Uint8Array): ReadDonor => readDonor(file, 'part.3mf');
const readModel = (model: string): ReadDonor => read(threeMfFile(model));

function refusal(file: Uint8Array): DonorRefusal {
  try {
    read(file);
  } catch (error) {
    if (error instanceof DonorRefusal) return error;
    throw error;
  }
  throw new Error('it was read');
}
const lowest = ({ mesh }: ReadDonor): number[] =>
  [0, 1, 2].map((k) => Math.min(...mesh.positions.filter((_, n) => n % 3 === k)));

describe('model', () => {
  test('a cube', () => {
    expect(read(plainThreeMf(cube))).toMatchObject({
      format: '3mf',
      declaredUnit: 'mm',
      triangles: 12,
      sound: { manifold: true, bodies: 1, genus: 0, volume: 8 },
      repairs: [],
      remarks: [],
    });
  });

  test.each([
    ['micron', 'micron'],
    ['millimeter', 'mm'],
    ['centimeter', 'cm'],
    ['inch', 'inch'],
    ['foot', 'foot'],
    ['meter', 'metre'],
  ])('unit %s', (written, unit) => {
    expect(readModel(modelXml(object(1), item(1), `unit="${written}"`)).declaredUnit).toBe(unit);
  });
  test('no unit is millimetres, an unknown one is refused with the list', () => {
    expect(readModel(modelXml(object(1), item(1), '')).declaredUnit).toBe('mm');
    expect(refusal(threeMfFile(modelXml(object(1), item(1), 'unit="ell"'))).message).toMatch(
      /"ell".*inch, foot/,
    );
  });

  test('objects stand where items put them, row vectors times matrix', () => {
    // A quarter turn about z takes x to y; then moved.
    const donor = readModel(
      modelXml(object(1, meshXml(blockMesh([0, 0, 0], [3, 1, 1]))), item(1, '0 1 0 -1 0 0 0 0 1 10 20 30')),
    );
    expect(extentsOf(cornersOf(donor.mesh))).toEqual([1, 3, 1]);
    expect(lowest(donor)).toEqual([9, 20, 30]);
  });

  test('a mirror image faces outward again', () => {
    const donor = readModel(
      modelXml(object(1), item(1, '-1 0 0 0 1 0 0 0 1 0 0 0') + item(1, '1 0 0 0 1 0 0 0 2 5 0 0')),
    );
    expect(donor.sound).toEqual({ manifold: true, bodies: 2, genus: 0, volume: 24 });
    expect(volumeOf(cornersOf(donor.mesh))).toBeCloseTo(24, 9);
  });

  test('components are placed inside components, the inner transform first', () => {
    const nested =
      object(1) +
      object(2, '<components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 3 0 0"/></components>') +
      object(
        3,
        '<components><component objectid="2" transform="2 0 0 0 2 0 0 0 2 1 0 0"/><component objectid="1"/></components>',
      );
    const donor = readModel(modelXml(nested, item(3)));
    expect(donor.triangles).toBe(24);
    expect(donor.sound).toMatchObject({ bodies: 2, volume: 8 + 64 });
    // 3 doubled, and 1: from 7 to 11.
    expect(Math.max(...donor.mesh.positions)).toBe(11);
  });

  test('objects that touch stay two bodies', () => {
    const donor = readModel(modelXml(object(1), item(1) + item(1, '1 0 0 0 1 0 0 0 1 2 0 0')));
    expect(donor.sound).toEqual({ manifold: true, bodies: 2, genus: 0, volume: 16 });
    expect(faultsOfMesh(donor.mesh)).toEqual([]);
  });

  test('supports are left out, an empty build takes everything that is free', () => {
    const some = modelXml(object(1) + object(2, meshXml(cube), 'type="support"'), item(1) + item(2));
    expect(readModel(some)).toMatchObject({ sound: { bodies: 1 }, remarks: [{ kind: 'support-left-out' }] });
    expect(readModel(modelXml(object(1), ''))).toMatchObject({
      sound: { volume: 8 },
      remarks: [{ kind: 'not-placed' }],
    });
  });

  test('a fault in one object names it, and the place where it stands', () => {
    const open = meshXml(altered(cube, { without: [2, 3] }));
    const found = refusal(
      threeMfFile(modelXml(object(7, open, 'name="lid"'), item(7, '1 0 0 0 1 0 0 0 1 10 0 0'))),
    );
    expect(found.message).toMatch(/^object 7 "lid": the surface is open along 4 edges/);
    expect(found.at).toEqual([11, 1, 2]);
  });

  test('objects in other parts of the package', () => {
    const namespaces =
      'xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06" requiredextensions="p"';
    const outer = modelXml(
      object(1, '<components><component p:path="/3D/Objects/one.model" objectid="4"/></components>'),
      item(1),
      namespaces,
    );
    const file = threeMfFile(outer, { '3D/Objects/one.model': strToU8(modelXml(object(4), '')) });
    expect(read(file).sound.volume).toBe(8);
    expect(refusal(threeMfFile(outer)).message).toMatch(/no part 3D\/Objects\/one.model/);
  });

  test.each([
    [
      'prefixed core namespace',
      (xml: string) => xml.replaceAll(/<(\/?)(?=[a-z])/g, '<$1c:').replace('xmlns=', 'xmlns:c='),
    ],
    [
      'comments, instructions, character data',
      (xml: string) =>
        xml.replace(
          '<resources>',
          '<!-- <object id="1"/> --><?note x?><metadata name="a"><![CDATA[<object>]]></metadata><resources>',
        ),
    ],
    [
      'single quotes and blanks',
      (xml: string) => xml.replaceAll('"', "'").replaceAll('/>', '  />').replaceAll("='", " = '"),
    ],
    [
      'elements of other namespaces',
      (xml: string) =>
        xml.replace('<resources>', '<resources><m:object xmlns:m="urn:x" id="1"><m:mesh/></m:object>'),
    ],
    [
      'entities of XML in names',
      (xml: string) => xml.replace('<object ', '<object name="a &amp; b &#x41;" '),
    ],
  ])('%s', (_, change) => {
    expect(readModel(change(modelXml(object(1), item(1)))).sound.volume).toBe(8);
  });

  test('UTF-16', () => {
    const model = Buffer.from(`\ufeff${modelXml(object(1), item(1))}`, 'utf16le');
    const file = zipSync({
      '_rels/.rels': strToU8(relationships('3D/a.model')),
      '3D/a.model': new Uint8Array(model),
    });
    expect(read(file).sound.volume).toBe(8);
  });

  test.each<[string, string, RegExp]>([
    [
      'a vertex that is not there',
      modelXml(object(1).replace('v1="0"', 'v1="8"'), item(1)),
      /object 1 names vertex 8; allowed: vertices 0 to 7/,
    ],
    [
      'a negative vertex',
      modelXml(object(1).replace('v1="0"', 'v1="-1"'), item(1)),
      /line 9: triangle with v1 "-1"/,
    ],
    ['a vertex without z', modelXml(object(1).replace(' z="0"', ''), item(1)), /line 2: vertex without z/],
    [
      'a transform of eleven numbers',
      modelXml(object(1), item(1, '1 0 0 0 1 0 0 0 1 0 0')),
      /twelve numbers/,
    ],
    [
      'a transform that squeezes flat',
      modelXml(object(1), item(1, '1 0 0 0 1 0 0 0 0 0 0 0')),
      /keep a volume/,
    ],
    ['an object that is not there', modelXml(object(1), item(2)), /object 2 is named and not there/],
    ['an id used twice', modelXml(object(1) + object(1), item(1)), /a second object 1/],
    [
      'an object that is part of itself',
      modelXml(object(1, '<components><component objectid="1"/></components>'), item(1)),
      /part of itself/,
    ],
    [
      'a document type',
      modelXml(object(1), item(1)).replace('<model', '<!DOCTYPE model [<!ENTITY a "b">]><model'),
      /document type/,
    ],
    ['an entity of its own', modelXml(object(1, meshXml(cube), 'name="&a;"'), item(1)), /entity &a;/],
    ['no end', modelXml(object(1), item(1)).replace('</model>', ''), /ends inside an element/],
    [
      'tags that cross',
      modelXml(object(1), item(1)).replace('</build></model>', '</model></build>'),
      /closes nothing/,
    ],
    ['something else', '<html></html>', /does not begin with a 3MF model/],
  ])('%s is refused', (_, model, message) => {
    const found = refusal(threeMfFile(model));
    expect(found.code).toBe('donor_model_unclear');
    expect(found.message).toMatch(message);
  });

  test('a required extension that may change the surface is refused by name', () => {
    const found = refusal(
      threeMfFile(
        modelXml(object(1), item(1), 'xmlns:b="http://example.org/lattice" requiredextensions="b"'),
      ),
    );
    expect(found).toMatchObject({ code: 'donor_extension_unknown' });
    expect(found.message).toMatch(/http:\/\/example.org\/lattice/);
  });

  test('a few nested objects that name a thousand million triangles are refused before they are made', () => {
    const nest = Array.from({ length: 9 }, (_, k) =>
      object(k + 2, `<components>${`<component objectid="${k + 1}"/>`.repeat(10)}</components>`),
    );
    expect(refusal(threeMfFile(modelXml(object(1) + nest.join(''), item(10)))).code).toBe('donor_too_large');
  });

  test('nothing in it', () => {
    expect(refusal(threeMfFile(modelXml('', ''))).code).toBe('donor_empty');
  });
});

describe('archive', () => {
  const good = plainThreeMf(cube);
  const at = (file: Uint8Array, signature: number): number => {
    const view = new DataView(file.buffer, file.byteOffset);
    for (let k = file.length - 22; k >= 0; k--) if (view.getUint32(k, true) === signature) return k;
    throw new Error('not there');
  };
  const END = 0x06054b50;
  const ENTRY = 0x02014b50;
  const changed = (signature: number, offset: number, value: number, bytes: 2 | 4): Uint8Array => {
    const file = good.slice();
    const view = new DataView(file.buffer);
    if (bytes === 2) view.setUint16(at(file, signature) + offset, value, true);
    else view.setUint32(at(file, signature) + offset, value, true);
    return file;
  };

  test.each(['../3dmodel.model', '3D/../../x', '/3D/x', 'C:\\x', '..\\x', '3D/./x', 'a\0b'])(
    'a part named %j is refused, wanted or not',
    (name) => {
      const file = zipSync({
        '_rels/.rels': strToU8(relationships('3D/3dmodel.model')),
        [name]: strToU8('x'),
      });
      expect(refusal(file)).toMatchObject({ code: 'donor_archive_unsafe' });
    },
  );
  test.each(['../../etc/model', '/3D/..%2f..%2fx', 'file:///x', 'a\\b'])(
    'a model named %j is refused',
    (target) => {
      const file = zipSync({ '_rels/.rels': strToU8(relationships(target)) });
      expect(refusal(file)).toMatchObject({ code: 'donor_archive_unsafe' });
    },
  );
  test('a model outside of the archive is refused', () => {
    const outside = relationships('http://example.org/x').replace('Id=', 'TargetMode="External" Id=');
    expect(refusal(zipSync({ '_rels/.rels': strToU8(outside) })).code).toBe('donor_archive_unsafe');
  });
  test('a part that grows too much is refused before it is unpacked', () => {
    const zeros = new Uint8Array(40e6);
    const found = refusal(threeMfFile(modelXml(object(1), item(1)), { 'x.bin': [zeros, { level: 9 }] }));
    expect(found.code).toBe('donor_archive_unsafe');
    expect(found.message).toMatch(
      /grows from \d+ to 40000000 bytes; allowed: parts that grow 250-fold at most/,
    );
  });
  test.each<[string, Uint8Array, string]>([
    ['more parts than any', changed(END, 10, 0xffff, 2), 'donor_too_large'],
    ['more parts than its directory has room for', changed(END, 10, 9000, 2), 'donor_archive_damaged'],
    ['a directory beyond the end', changed(END, 16, 0xfffffff0, 4), 'donor_archive_damaged'],
    ['a directory in the wrong place', changed(END, 16, 4, 4), 'donor_archive_damaged'],
    ['a part of four thousand million bytes', changed(ENTRY, 24, 0xfffffff0, 4), 'donor_too_large'],
    ['a part smaller than what it unpacks to', changed(ENTRY, 24, 100, 4), 'donor_archive_damaged'],
    ['a part larger than what it unpacks to', changed(ENTRY, 24, 2000, 4), 'donor_archive_damaged'],
    ['a part beyond the end', changed(ENTRY, 42, 0xfffff0, 4), 'donor_archive_damaged'],
    ['a part of another content', changed(ENTRY, 16, 12345, 4), 'donor_archive_damaged'],
    ['a part packed in another way', changed(ENTRY, 10, 12, 2), 'donor_archive_damaged'],
    ['an encrypted part', changed(ENTRY, 8, 1, 2), 'donor_archive_unsafe'],
    ['cut short', good.subarray(0, good.length - 30), 'donor_archive_damaged'],
    ['the beginning only', good.subarray(0, 40), 'donor_archive_damaged'],
  ])('%s', (_, file, code) => {
    expect(refusal(file).code).toBe(code);
  });

  test('a model that nothing names is taken from its usual place, and told', () => {
    const file = zipSync({ '3D/3dmodel.model': strToU8(modelXml(object(1), item(1))) });
    expect(read(file)).toMatchObject({ sound: { volume: 8 }, remarks: [{ kind: 'header-odd' }] });
  });
  test('an archive of something else', () => {
    expect(refusal(zipSync({ 'letter.txt': strToU8('Dear sir') })).code).toBe('donor_format_unknown');
  });
  test('names of parts in upper or lower case, a comment at the end, nothing packed', () => {
    const file = zipSync(
      {
        '_RELS/.rels': strToU8(relationships('/3d/3DModel.model')),
        '3D/3dmodel.model': [strToU8(modelXml(object(1), item(1))), { level: 0 }],
      },
      { comment: 'hello' },
    );
    const commented = Uint8Array.from([...file, ...strToU8('PK\u0005 a comment')]);
    new DataView(commented.buffer).setUint16(file.length - 2, commented.length - file.length, true);
    expect(read(file).sound.volume).toBe(8);
    expect(read(commented).sound.volume).toBe(8);
  });
});
