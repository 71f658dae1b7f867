import fc from 'fast-check';
import { strFromU8 } from 'fflate';
import { describeDonor } from '../../../src/cli/donor/describeDonor.ts';
import { refitDonor } from '../../../src/cli/donor/refitDonor.ts';
import { DonorRefusal } from '../../../src/donor/donorRefusal.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import { rawUnzip, rawZip } from '../../archive/rawZip.ts';
import {
  blockMesh,
  meshXml,
  modelXml,
  plainStl,
  plainText,
  threeMfFile,
  together,
} from '../../donor/files.ts';
import { faultsOfMesh } from '../../donor/read/independent.ts';
import { mustBeSoundFiles } from '../checks/soundFiles.ts';
import { commandRun } from '../commandRun.ts';
import { models as demoModels } from '../corpus.ts';
import { edited, edits } from '../damage/bytes.ts';
import { pieceChanges, rearranged } from '../damage/pieces.ts';
import { way, written } from '../damage/text.ts';
import { repacked, zipChanges } from '../damage/zip.ts';
import { type Kind, kind, type Outcome } from '../kind.ts';

/** Numbers, names and marks that no coordinate, index or tag expects. */
const NUMBERS = [
  'NaN',
  'inf',
  '-inf',
  '1e999',
  '-1e999',
  '1e38',
  '3.5e38',
  '1e-46',
  '0',
  '-0',
  '1,5',
  '1.5.5',
  '0x10',
  '+',
  '-',
  'e5',
  '1e',
  '4294967295',
  '4294967296',
  '-1',
  '９',
  'x'.repeat(5000),
];
const WORDS = [
  ...NUMBERS,
  'solid',
  'facet',
  'endfacet',
  'outer loop',
  'endloop',
  'endsolid',
  'vertex',
  'vertex 1 2',
  '\0',
  '\n',
  '\r\n',
  '"',
  '#',
];
const TAGS = [
  ...[
    '<',
    '>',
    '/>',
    '<a>',
    '</a>',
    '</mesh>',
    '<!--',
    '-->',
    '<![CDATA[',
    ']]>',
    '<?x ?>',
    '<!DOCTYPE a [<!ENTITY b "c">]>',
    '&b;',
    '&#0;',
    '&#x110000;',
    '&amp;',
  ],
  ...[
    '<object id="1"/>',
    '<item objectid="1"/>',
    '<component objectid="2"/>',
    '<component objectid="1" transform="1 0 0"/>',
  ],
  ...[
    '<triangle v1="0" v2="0" v3="0"/>',
    '<vertex x="1" y="2"/>',
    '<vertex x="1" x="2" y="0" z="0"/>',
    '<a>'.repeat(2000),
  ],
];

const hollow = together(blockMesh([0, 0, 0], [5, 4, 3]), blockMesh([6, 0, 0], [7, 1, 1]));
const model = modelXml(
  `<object id="1">${meshXml(hollow)}</object><object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 9 0 0"/></components></object>`,
  '<item objectid="1"/><item objectid="2"/>',
);
const small: Readonly<Record<string, Uint8Array>> = {
  'plain.stl': plainStl(hollow),
  'text.stl': new TextEncoder().encode(plainText(hollow)),
  'plain.3mf': threeMfFile(model),
};

/** A model, and which sound one it was. */
interface Model {
  readonly from: string;
  readonly bytes: Uint8Array;
}

/** Sound models of one kind: a few triangles, on which a change of a byte tells, and the demo parts. */
const sound = (pattern: RegExp): fc.Arbitrary<Model> => {
  const ours = Object.entries(demoModels());
  const found = [...Object.entries(small), ...Object.entries(small), ...ours].filter(([name]) =>
    pattern.test(name),
  );
  return fc.constantFrom(...found.map(([from, bytes]) => ({ from, bytes })));
};

/** 32-bit numbers of a binary STL replaced. */
const floats = fc.array(
  fc.tuple(
    fc.nat(),
    fc.constantFrom(Number.NaN, Infinity, -Infinity, 1e38, -1e38, 1e-40, 0, 1, 1e9, 4.9e-324),
  ),
  { minLength: 1, maxLength: 6 },
);
const withFloats = (bytes: Uint8Array, list: readonly (readonly [number, number])[]): Uint8Array => {
  const file = Uint8Array.from(bytes);
  const view = new DataView(file.buffer);
  const triangles = Math.floor((file.length - 84) / 50);
  for (const [at, value] of list)
    view.setFloat32(84 + 50 * (Math.floor(at / 12) % triangles) + 4 * (at % 12), value, true);
  return file;
};

const binaryStl = fc
  .tuple(
    sound(/^plain\.stl$|^(?!text)(?!.*-text).*\.stl$/),
    fc.oneof(
      floats.map((list) => ({ list })),
      edits,
    ),
  )
  .map(([{ from, bytes }, damage]) => ({
    from,
    bytes: 'list' in damage ? withFloats(bytes, damage.list) : edited(bytes, damage),
  }));
const maybeEdits = fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: edits });
const asciiStl = fc
  .tuple(
    sound(/text/),
    pieceChanges(WORDS),
    fc.constantFrom(/\S+/g, /[^\n]+\n/g, /-?\d[\d.e+-]*/g),
    way,
    maybeEdits,
  )
  .map(([{ from, bytes }, list, piece, how, more]) => ({
    from,
    bytes: edited(written(rearranged(strFromU8(bytes), piece, list), how), more),
  }));
const xml = fc
  .tuple(
    sound(/3mf$/),
    fc.nat(),
    pieceChanges([...TAGS, ...NUMBERS]),
    fc.constantFrom(/<[^>]*>/g, /"[^"]*"/g, /-?\d[\d.e+-]*/g),
    way,
  )
  .map(([{ from, bytes }, which, list, piece, how]) => {
    const entries = rawUnzip(bytes).map(({ name, data }) => ({ name, data }));
    // Mostly the model, which stands where the others lead to.
    const k =
      which % 4 === 0
        ? (which >> 2) % entries.length
        : entries.findIndex(({ name }) => name.endsWith('model'));
    const text = rearranged(strFromU8(entries[k]!.data), piece, list);
    entries[k] = { ...entries[k]!, data: Uint8Array.from(written(text, how)) };
    return { from, bytes: rawZip(entries) };
  });
const zipped = fc
  .tuple(
    sound(/3mf$/),
    fc.oneof(
      zipChanges.map((list) => ({ list })),
      edits,
    ),
  )
  .map(([{ from, bytes }, damage]) => ({
    from,
    bytes: 'list' in damage ? repacked(bytes, damage.list) : edited(bytes, damage),
  }));

/** How large a refit is, in decades of layers: a coordinate that was damaged can make a part ten times as large. */
function layersOf(files: ReadonlyMap<string, Uint8Array>): string {
  const [, result] = [...files].find(([name]) => name.endsWith('.json'))!;
  const { print } = JSON.parse(strFromU8(result)) as { print: { volume: number; layers: number } };
  return `1e${Math.floor(Math.log10(print.layers))} layers, 1e${Math.floor(Math.log10(print.volume))} mm3`;
}

/** Reads a model, with sound files in hand, and what `fettle donor` and, where asked, `fettle refit` make of it. */
async function handedOver({ from, bytes, refit }: Model & { readonly refit: string }): Promise<Outcome> {
  try {
    const { mesh, sound } = readDonor(bytes, 'part');
    const faults = faultsOfMesh(mesh);
    if (faults.length > 0 || !sound.manifold) throw new Error(`read as ${faults.slice(0, 5).join(', ')}`);
    for (const number of [sound.genus, sound.bodies, sound.volume])
      if (!Number.isFinite(number)) throw new Error(`soundness ${JSON.stringify(sound)}`);
  } catch (error) {
    if (!(error instanceof DonorRefusal)) throw error;
  }
  const run = await commandRun({ 'any.stl': bytes }, async (inFolder) => {
    const path = inFolder('any.stl');
    if (refit === '')
      await describeDonor(path, {
        units: undefined,
        axis: undefined,
        job: inFolder('any.job.json'),
        json: false,
      });
    else
      await refitDonor(path, {
        changes: [{ axis: refit[0]!, by: refit.slice(1) }],
        out: inFolder('out'),
        yes: true,
      });
  });
  if (run.refused.length > 0) return { refused: run.refused };
  mustBeSoundFiles(run, { whole: false, given: ['any.stl'] });
  return { made: `${refit === '' ? 'read' : `refitted ${layersOf(run.files)}`} ${from}` };
}

const change = fc.oneof(
  { weight: 4, arbitrary: fc.constant('') },
  { weight: 1, arbitrary: fc.constantFrom('x1', 'y-0.5', 'z2', 'z-1', 'x30') },
);
const damagedModel = (name: string, few: number, models: fc.Arbitrary<Model>): Kind =>
  kind({
    name,
    few,
    inputs: fc.tuple(models, change).map(([one, refit]) => ({ ...one, refit })),
    attempt: handedOver,
    files: ({ bytes: file }) => ({ 'any.stl': file }),
  });

export const damagedModels: readonly Kind[] = [
  damagedModel('damaged binary STL', 25, binaryStl),
  damagedModel('damaged text STL', 25, asciiStl),
  damagedModel('damaged XML in 3MF', 25, xml),
  damagedModel('damaged 3MF archive', 25, zipped),
];
