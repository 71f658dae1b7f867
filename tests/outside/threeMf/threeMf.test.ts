// What a 3MF must be by the 3MF Core Specification 1.2 (3MF Consortium) and the Open Packaging Conventions (ECMA-376-2), held
// against a file by libxml2 and xmldom. Namespaces, relationship types and content types: appendix C of the core specification.
import { DOMParser } from '@xmldom/xmldom';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type ThreeMfInput, threeMf } from '../../../src/output/threeMf/index.ts';
import { identity, shift } from '../../../src/solid/placement.ts';
import { cube, prism } from '../../output/meshes.ts';
import { faultsOfModel } from './validModel.ts';

const input: ThreeMfInput = {
  title: 'Enter key clips',
  author: 'A. Restorer',
  licence: 'CC-BY-4.0',
  description: 'Two clips',
  application: 'Fettle 0.0.0',
  hash: '0123456789abcdef'.repeat(4),
  material: 'PETG',
  printer: 'printer 1',
  objects: [
    { name: 'left', partNumber: 'left', mesh: cube(3.84) },
    { name: 'right', partNumber: 'right', mesh: prism(9, 3.3, 1e-7) },
  ],
  items: [
    { object: 0, placement: identity },
    { object: 1, placement: shift([10.125, 20, 0]) },
    { object: 1, placement: { rotation: [0, -1, 0, 1, 0, 0, 0, 0, 1], translation: [30, 1e-7, 0] } },
  ],
};
const partsOf = (file: Uint8Array) => unzipSync(file);
const modelOf = (file: Uint8Array) => strFromU8(partsOf(file)['3D/3dmodel.model']!);
const parsed = (text: string) => new DOMParser().parseFromString(text, 'text/xml');
const PNG = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

const hostile = [
  '<script>&"\'</script>',
  ']]><!-- -->',
  '&lt;&#0;&entity;',
  'a\u0000b\u0008c\u000bd\u001fe\ufffef\uffff',
  '\ud800 lone, \udc00 low, 😀 whole',
  'line\nbreak\ttab\r\nreturn',
  '  ',
  'Klammer für „Eingabe“ 日本 العربية',
];

describe('the model', () => {
  it('is what the core specification allows', async () => {
    expect(await faultsOfModel(modelOf(threeMf(input)))).toEqual([]);
  });

  it.each(hostile)('is so whatever the texts are: %j', async (text) => {
    const file = threeMf({
      ...input,
      ...{ title: text, author: text, licence: text, description: text, material: text, printer: text },
      objects: input.objects.map((each) => ({ ...each, name: text, partNumber: text })),
    });
    const model = modelOf(file);
    expect(await faultsOfModel(model)).toEqual([]);
    const names = [...parsed(model).getElementsByTagName('object')].map((each) => each.getAttribute('name'));
    // biome-ignore lint/suspicious/noControlCharactersInRegex: what XML 1.0, production 2, leaves out.
    const kept = text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd');
    const lone = kept.replace(/\ud83d\ude00|[\ud800-\udfff]/g, (at) => (at.length === 2 ? at : '\ufffd'));
    expect(names).toEqual(Array(2).fill(lone.replace(/[ \t\r\n]+/g, ' ').trim()));
  });

  it.each([
    ['a unit the specification does not know', (model: string) => model.replace('millimeter', 'mm')],
    ['a material without colour', (model: string) => model.replace(/ displaycolor="[^"]*"/, '')],
    [
      'a build before what it builds',
      (model: string) =>
        model.replace(/( <resources>[\s\S]*<\/resources>)\n( <build>[\s\S]*<\/build>)/, '$2\n$1'),
    ],
    ['a coordinate that is no number', (model: string) => model.replace('x="3.84"', 'x="NaN"')],
    ['a decimal comma', (model: string) => model.replace('x="3.84"', 'x="3,84"')],
    [
      'a transform of eleven numbers',
      (model: string) => model.replace('1 0 0 0 1 0 0 0 1 0 0 0', '1 0 0 0 1 0 0 0 1 0 0'),
    ],
    ['an object numbered 0', (model: string) => model.replace('id="2"', 'id="0"')],
    ['an attribute of nobody', (model: string) => model.replace('<build>', '<build more="1">')],
    ['an older namespace', (model: string) => model.replace('core/2015/02', 'core/2013/01')],
  ])('would be found out with %s', async (_, change) => {
    const model = modelOf(threeMf(input));
    expect(change(model)).not.toBe(model);
    expect(await faultsOfModel(change(model))).not.toEqual([]);
  });

  it('says what it is by the names of the specification, and the rest in a namespace of its own (3.4.1)', () => {
    const model = parsed(modelOf(threeMf(input)));
    const said = Object.fromEntries(
      [...model.getElementsByTagName('metadata')].map((each) => [
        each.getAttribute('name')!,
        each.textContent,
      ]),
    );
    expect(said).toEqual({
      Title: input.title,
      Designer: input.author,
      Description: input.description,
      LicenseTerms: input.licence,
      Application: input.application,
      'fettle:JobHash': input.hash,
      'fettle:Material': 'PETG',
      'fettle:Printer': 'printer 1',
    });
    const known =
      /^(Title|Designer|Description|Copyright|LicenseTerms|Rating|CreationDate|ModificationDate|Application)$/;
    const root = model.documentElement!;
    for (const name of Object.keys(said)) {
      const [prefix, local] = name.split(':');
      if (local === undefined) expect(name).toMatch(known);
      else expect(root.lookupNamespaceURI(prefix!)).toMatch(/^urn:/);
    }
    expect(root.getAttribute('unit')).toBe('millimeter');
  });

  it('leaves out who and on which terms, when nobody said', () => {
    const { author, licence, description, ...rest } = input;
    const names = [...parsed(modelOf(threeMf(rest))).getElementsByTagName('metadata')].map((each) =>
      each.getAttribute('name'),
    );
    expect(names).toEqual(['Title', 'Application', 'fettle:JobHash', 'fettle:Material', 'fettle:Printer']);
  });

  it('numbers every resource once, before it is named, and gives each object the material (2.3, 3.4.2)', () => {
    const model = parsed(modelOf(threeMf(input)));
    const of = (tag: string, name: string) =>
      [...model.getElementsByTagName(tag)].map((each) => Number(each.getAttribute(name)));
    const ids = [...of('basematerials', 'id'), ...of('object', 'id')];
    expect(new Set(ids).size).toBe(3);
    expect(of('object', 'pid')).toEqual([ids[0], ids[0]]);
    expect(of('object', 'pindex')).toEqual([0, 0]);
    expect(of('item', 'objectid')).toEqual([ids[1], ids[2], ids[2]]);
  });
});

describe('the package', () => {
  it.each([
    ['without a picture', undefined],
    ['with one', PNG],
  ])('names each of its parts %s, and every part has its type', (_, thumbnail) => {
    const parts = partsOf(threeMf({ ...input, thumbnail }));
    const types = new Map(
      [...parsed(strFromU8(parts['[Content_Types].xml']!)).getElementsByTagName('Default')].map((each) => [
        each.getAttribute('Extension'),
        each.getAttribute('ContentType'),
      ]),
    );
    const expected: Record<string, string> = {
      rels: 'application/vnd.openxmlformats-package.relationships+xml',
      model: 'application/vnd.ms-package.3dmanufacturing-3dmodel+xml',
      png: 'image/png',
    };
    for (const name of Object.keys(parts)) {
      if (name === '[Content_Types].xml') continue;
      const extension = name.split('.').at(-1)!;
      expect(types.get(extension), name).toBe(expected[extension]);
    }
    const relationships = [...parsed(strFromU8(parts['_rels/.rels']!)).getElementsByTagName('Relationship')];
    const told = relationships.map((each) => [each.getAttribute('Type'), each.getAttribute('Target')]);
    expect(told).toEqual([
      ['http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel', '/3D/3dmodel.model'],
      ...(thumbnail
        ? [
            [
              'http://schemas.openxmlformats.org/package/2006/relationships/metadata/thumbnail',
              '/Metadata/thumbnail.png',
            ],
          ]
        : []),
    ]);
    for (const [, target] of told) expect(parts).toHaveProperty([target!.slice(1)]);
    expect(new Set(relationships.map((each) => each.getAttribute('Id'))).size).toBe(told.length);
    expect(Object.keys(parts)).toHaveLength(told.length + 2);
    if (thumbnail) expect(parts['Metadata/thumbnail.png']).toEqual(thumbnail);
  });
});
