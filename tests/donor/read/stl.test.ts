// STL files with the oddities that files in the wild have. Layout and grammar: StereoLithography Interface
// Specification, 3D Systems, 1989 (from memory). A cube of side 2 has volume 8 and 12 triangles.
import { strToU8 } from 'fflate';
import { describe, expect, test } from 'vitest';
import { DonorRefusal } from '../../../src/donor/donorRefusal.ts';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import type { ReadDonor } from '../../../src/donor/types.ts';
import { altered, blockMesh, plainStl, plainText, together } from '../files.ts';

const cube = blockMesh([0, 0, 0], [2, 2, 2]);
const binary = plainStl(cube);
const text = plainText(cube);

const read = (file: Uint8Array | string): ReadDonor =>
  readDonor(typeof file === 'string' ? strToU8(file) : file, 'part.stl');

function refusal(file: Uint8Array | string): DonorRefusal {
  try {
    read(file);
  } catch (error) {
    if (error instanceof DonorRefusal) return error;
    throw error;
  }
  throw new Error('it was read');
}

const kinds = (list: readonly { kind: string }[]): string[] => list.map(({ kind }) => kind);
const joined = (...parts: Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));
const counting = (file: Uint8Array, count: number): Uint8Array => {
  const changed = file.slice();
  new DataView(changed.buffer).setUint32(80, count, true);
  return changed;
};
const cubeRead = { triangles: 12, sound: { manifold: true, bodies: 1, genus: 0, volume: 8 } };

describe('binary', () => {
  test.each<[string, Uint8Array, string[]]>([
    ['plain', binary, []],
    ['header that begins with solid', plainStl(cube, 'solid part'), []],
    [
      'header that reads like a text',
      plainStl(cube, 'solid part\nfacet normal 0 0 1\nouter loop\nvertex'),
      [],
    ],
    ['counts none', counting(binary, 0), ['count-wrong']],
    ['counts too few', counting(binary, 5), ['count-wrong']],
    ['counts too many', counting(binary, 400), ['count-wrong']],
    ['counts four thousand million', counting(binary, 0xfffffff0), ['count-wrong']],
    ['header like a text and a wrong count', counting(plainStl(cube, 'solid x'), 11), ['count-wrong']],
    ['half a record too much', joined(binary, new Uint8Array(25).fill(7)), ['bytes-left']],
    ['a record of rubbish too much', joined(binary, new Uint8Array(50).fill(0x7f)), ['bytes-left']],
    ['unaligned in a larger buffer', joined(new Uint8Array(3), binary).subarray(3), []],
  ])('%s', (_, file, remarks) => {
    const donor = read(file);
    expect(donor).toMatchObject({ ...cubeRead, format: 'stl-binary', repairs: [] });
    expect(kinds(donor.remarks)).toEqual(remarks);
  });

  test('zeros after the last triangle add nothing', () => {
    expect(read(joined(binary, new Uint8Array(500))).sound).toEqual(cubeRead.sound);
  });

  test('a file cut short is refused, not mended', () => {
    const found = refusal(binary.subarray(0, 84 + 50 * 11));
    expect(found.code).toBe('donor_cut_short');
    expect(found.message).toMatch(/counts 12 triangles and holds 11.*open along 3 edges/);
  });

  test('what is too short for one triangle is empty or nothing known', () => {
    expect(refusal(new Uint8Array(0)).code).toBe('donor_empty');
    expect(refusal(binary.subarray(0, 84)).code).toBe('donor_format_unknown');
    expect(refusal(counting(binary, 0).subarray(0, 84)).code).toBe('donor_empty');
    expect(refusal(binary.subarray(0, 60)).code).toBe('donor_format_unknown');
  });

  test.each([Number.NaN, Infinity, -Infinity, 3e38])(
    'a corner at %d is left out and its triangle filled',
    (value) => {
      const file = binary.slice();
      new DataView(file.buffer).setFloat32(84 + 50 * 3 + 12, value, true);
      const donor = read(file);
      expect(donor.sound).toEqual(cubeRead.sound);
      expect(kinds(donor.repairs)).toEqual(['numbers-missing', 'holes-filled']);
    },
  );

  test('-0 and 0 are one place', () => {
    const file = binary.slice();
    const view = new DataView(file.buffer);
    for (let t = 0; t < 6; t++)
      for (let k = 3; k < 12; k++)
        if (view.getFloat32(84 + 50 * t + 4 * k, true) === 0) view.setFloat32(84 + 50 * t + 4 * k, -0, true);
    expect(read(file)).toMatchObject({ ...cubeRead, repairs: [] });
  });

  test('a unit in the header is told', () => {
    expect(read(plainStl(cube, 'UNITS=inches')).declaredUnit).toBe('inch');
    expect(read(plainStl(cube, 'fettle STL, peg, mm, job 0123abcd')).declaredUnit).toBe('mm');
    expect(read(plainStl(cube, 'an inch or two')).declaredUnit).toBeNull();
  });
});

describe('text', () => {
  const twoSolids = `${text}${plainText(blockMesh([5, 0, 0], [6, 1, 1]))}`;
  test.each<[string, string]>([
    ['plain', text],
    ['upper case', text.toUpperCase()],
    ['lines that end as on Windows', text.replaceAll('\n', '\r\n')],
    ['lines that end as on old machines', text.replaceAll('\n', '\r')],
    ['tabs and many blanks', text.replaceAll(' ', ' \t  ')],
    ['all in one line', text.replaceAll('\n', ' ').replace('solid part ', 'solid part\n')],
    ['name and first facet in one line', text.replace('solid part\n', 'solid part ')],
    ['no name', text.replaceAll('solid part', 'solid')],
    ['a name of odd words', text.replaceAll('solid part', 'solid facet of loop 3 vertex; # endsolid')],
    ['byte order mark', `\ufeff${text}`],
    ['blank lines first', `\n\n   ${text}`],
    ['comments', text.replace('\n', '\n# made by hand\n; so\n// so\n').replaceAll('endloop', 'endloop # x')],
    ['numbers with exponents', plainText(cube, (x) => x.toExponential(12))],
    ['numbers as Fortran has them', plainText(cube, (x) => x.toExponential(6).replace('e', 'D'))],
    ['numbers with a sign and three digits of exponent', plainText(cube, (x) => `+${x / 100}E+002`)],
    ['numbers with a decimal comma', plainText(cube, (x) => x.toFixed(6).replace('.', ','))],
    ['numbers without a digit before the point', plainText(cube, (x) => (x === 0 ? '.0' : '2.'))],
    ['normals that are no numbers', text.replaceAll('normal 0 0 0', 'normal nan -nan(ind) 1.#QNAN')],
    ['no normals', text.replaceAll('facet normal 0 0 0', 'facet')],
    ['ends in two words', text.replaceAll('endsolid', 'end solid').replaceAll('endfacet', 'end facet')],
    ['no solid around', text.replace('solid part\n', '').replace('endsolid part\n', '')],
    ['zeros after the end', `${text}\0\0\0\0`],
  ])('%s', (_, file) => {
    expect(read(file)).toMatchObject({ ...cubeRead, format: 'stl-ascii', repairs: [], remarks: [] });
  });

  test('several solids are taken together and told', () => {
    const donor = read(twoSolids);
    expect(donor.sound).toEqual({ manifold: true, bodies: 2, genus: 0, volume: 9 });
    expect(kinds(donor.remarks)).toEqual(['several-solids']);
  });

  test('solids that are the faces of one body make one body', () => {
    const sides = [0, 1, 2, 3, 4, 5].map((side) =>
      plainText(altered(cube, { without: [...Array(12).keys()].filter((t) => t >> 1 !== side) })),
    );
    expect(read(sides.join('')).sound).toEqual(cubeRead.sound);
  });

  test('a corner that is no number is left out and its triangle filled', () => {
    const donor = read(text.replace('vertex 0 0 0', 'vertex 0 nan 0'));
    expect(donor.sound).toEqual(cubeRead.sound);
    expect(kinds(donor.repairs)).toEqual(['numbers-missing', 'holes-filled']);
  });

  test('the end missing after the last facet is told, no more', () => {
    const donor = read(text.replace('endsolid part\n', ''));
    expect(donor).toMatchObject(cubeRead);
    expect(kinds(donor.remarks)).toEqual(['count-wrong']);
  });

  test.each([0.3, 0.5, 0.7, 0.9, 0.95])('cut off at %d of its length it is refused as cut short', (share) => {
    const found = refusal(text.slice(0, Math.floor(share * text.length)));
    expect(found.code).toBe('donor_cut_short');
    expect(found.allowed).toBe('the whole file');
  });

  test.each<[string, string, RegExp]>([
    [
      'a loop that does not begin',
      text.replace('outer', 'inner'),
      /line 4 has "vertex"; allowed: outer loop/,
    ],
    [
      'a number that is none',
      text.replace('vertex 0', 'vertex 1..5'),
      /line 4 has "1\.\.5"; allowed: a number/,
    ],
    ['two numbers', text.replace('vertex 0 0 0', 'vertex 0 0'), /line 5 has "vertex"; allowed: a number/],
    ['four corners', text.replace('endloop', 'vertex 1 1 1\nendloop'), /line 7 has "vertex".*three corners/],
    ['two corners', text.replace(/ +vertex.*\n/, ''), /line 6 has "endloop".*three lines with vertex/],
    ['a facet that does not end', text.replace('endfacet', 'facet'), /line 8 has "facet".*endfacet/],
  ])('%s is refused with its line', (_, file, message) => {
    const found = refusal(file);
    expect(found.code).toBe('donor_text_unclear');
    expect(found.message).toMatch(message);
  });

  test.each<[string, string, RegExp]>([
    ['STEP', 'ISO-10303-21;\nHEADER;\n', /STEP/],
    ['OBJ', '# cube\nv 0 0 0\nv 1 0 0\n', /OBJ/],
    ['PLY', 'ply\nformat ascii 1.0\n', /PLY/],
    ['OFF', 'OFF\n8 6 12\n', /OFF/],
    ['a model outside of its archive', '<?xml version="1.0"?><model/>', /XML/],
    ['a letter', 'Dear sir,\nsolid oak would be better', /no STL/],
  ])('%s is called by its name', (_, file, message) => {
    expect(refusal(file)).toMatchObject({ code: 'donor_format_unknown' });
    expect(refusal(file).message).toMatch(message);
  });

  test('an empty solid is refused', () => {
    expect(refusal('solid nothing\nendsolid nothing\n').code).toBe('donor_empty');
  });
});

test('a name that misleads is told', () => {
  expect(kinds(readDonor(binary, 'part.3mf').remarks)).toEqual(['name-misleads']);
  expect(readDonor(binary, 'part').remarks).toEqual([]);
});

test('the same file gives the same mesh, vertices in the order of their first corners', () => {
  const [once, again] = [read(binary), read(binary)];
  expect(once.mesh).toEqual(again.mesh);
  expect([...once.mesh.triangles.subarray(0, 3)]).toEqual([0, 1, 2]);
});

test('progress goes from little to all and never back', () => {
  const shares: number[] = [];
  readDonor(plainStl(together(cube, blockMesh([5, 0, 0], [6, 1, 1]))), 'x.stl', {
    onProgress: (s) => shares.push(s),
  });
  expect(shares.at(-1)).toBe(1);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(shares.length).toBeGreaterThan(3);
});
