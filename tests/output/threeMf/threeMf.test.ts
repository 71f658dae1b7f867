import fc from 'fast-check';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readDonor } from '../../../src/donor/read/readDonor.ts';
import { decimal32 } from '../../../src/output/threeMf/decimal32.ts';
import { type ThreeMfInput, threeMf } from '../../../src/output/threeMf/index.ts';
import type { Mesh } from '../../../src/solid/mesh.ts';
import { identity, shift } from '../../../src/solid/placement.ts';
import { cornersOf, faultsOfMesh, volumeOf } from '../../donor/read/independent.ts';
import { cube, prism, tetrahedron } from '../meshes.ts';
import { readThreeMf } from './readThreeMf.ts';

const around = {
  title: 't',
  application: 'Fettle 0.0.0',
  hash: 'ab',
  material: 'PETG',
  printer: 'printer 1',
};
const quarter = { rotation: [0, -1, 0, 1, 0, 0, 0, 0, 1], translation: [50, 7, 0] } as const;
const odd = prism(11, 7.77, 1 / 3);
const input: ThreeMfInput = {
  ...around,
  objects: [
    { name: 'cube', mesh: cube(3.84) },
    { name: 'odd one', partNumber: 'odd', mesh: odd },
  ],
  items: [
    { object: 1, placement: identity },
    { object: 0, placement: shift([20, 0, 0]) },
    { object: 1, placement: quarter },
  ],
};
/** Nine numbers a triangle, as the mesh has them. */
const flat = ({ positions, triangles }: Mesh) =>
  [...triangles].flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)]);

describe('read by three.js', () => {
  const items = readThreeMf(threeMf(input));

  it('has every item with its triangles, the unmoved one number for number', () => {
    expect(items).toHaveLength(3);
    expect([...items[0]!.corners]).toEqual(flat(odd));
    const shifted = flat(cube(3.84)).map((x, k) => x + (k % 3 === 0 ? 20 : 0));
    expect([...items[1]!.corners]).toEqual(shifted);
  });

  it('turns an item counter-clockwise from above and then moves it', () => {
    const [x, y, z] = flat(odd);
    const [u, v, w] = items[2]!.corners;
    expect([u, v, w]).toEqual([50 - y!, 7 + x!, z]);
  });

  it('calls the material by its name', () => {
    expect(items.map(({ material }) => material)).toEqual(['PETG', 'PETG', 'PETG']);
  });
});

it('is a sound donor in millimetres that needs no repair', () => {
  const { mesh, declaredUnit, repairs, remarks, sound, format } = readDonor(threeMf(input), 'x.3mf');
  expect({ declaredUnit, repairs, remarks, format }).toEqual({
    ...{ declaredUnit: 'mm', repairs: [], remarks: [], format: '3mf' },
  });
  expect(sound.bodies).toBe(3);
  expect(faultsOfMesh(mesh)).toEqual([]);
  // A cube, and twice a prism over eleven sides in a circle: n/2 r^2 sin(2 pi/n) h.
  const polygon = (11 / 2) * (7.77 / 2) ** 2 * Math.sin((2 * Math.PI) / 11);
  expect(volumeOf(cornersOf(mesh))).toBeCloseTo(3.84 ** 3 + (2 * polygon) / 3, 4);
});

it('keeps the 32 bits of any coordinate, and the order of vertices and triangles', () => {
  fc.assert(
    fc.property(
      fc.array(fc.float({ noNaN: true, noDefaultInfinity: true, min: -1e4, max: 1e4 }), {
        minLength: 9,
        maxLength: 9,
      }),
      (numbers) => {
        const mesh: Mesh = { positions: Float32Array.from(numbers), triangles: Uint32Array.from([2, 0, 1]) };
        const file = threeMf({
          ...around,
          ...{ objects: [{ name: 'a', mesh }], items: [{ object: 0, placement: identity }] },
        });
        const model = strFromU8(unzipSync(file)['3D/3dmodel.model']!);
        const read = [...model.matchAll(/ [xyz]="([^"]*)"/g)].map(
          ([, text]) => Math.fround(Number(text)) + 0,
        );
        expect(read).toEqual(numbers.map((number) => number + 0));
        expect(model).toContain('<triangle v1="2" v2="0" v3="1"/>');
      },
    ),
    { seed: 6, numRuns: 200 },
  );
});

describe('decimal32', () => {
  it('reads back as the same bits, in a form that ST_Number of the core specification allows', () => {
    fc.assert(
      fc.property(fc.float({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = decimal32(value);
        expect(Math.fround(Number(text)) === value).toBe(true);
        expect(text).toMatch(/^[+-]?(\d+(\.\d+)?|\.\d+)([eE][+-]?\d+)?$/);
      }),
      { seed: 9, numRuns: 5000 },
    );
  });

  it.each([
    [3.84, '3.84'],
    [0, '0'],
    [-0, '0'],
    [16777215, '16777215'],
    [1 / 3, '0.33333334'],
    [1e-7, '1e-7'],
  ])('writes %d as %s', (value, text) => {
    expect(decimal32(Math.fround(value))).toBe(text);
  });
});

it('gives the same bytes whatever the clock and the zone', () => {
  const zone = process.env.TZ;
  try {
    const files = ['UTC', 'Pacific/Kiritimati', 'America/St_Johns'].map((each) => {
      process.env.TZ = each;
      return threeMf(input);
    });
    expect(files[1]).toEqual(files[0]);
    expect(files[2]).toEqual(files[0]);
  } finally {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  }
});

describe('refuses', () => {
  const broken = (change: Partial<Mesh>): Mesh => ({ ...tetrahedron(1), ...change });
  const one = (mesh: Mesh): ThreeMfInput => ({
    ...{ ...around, objects: [{ name: 'a', mesh }], items: [{ object: 0, placement: identity }] },
  });
  it.each([
    ['no object', { ...input, objects: [] }, /at least 1 object and 1 item \(objects 0, items 3\)/],
    ['no item', { ...input, items: [] }, /\(objects 2, items 0\)/],
    [
      'an item of no object',
      { ...input, items: [{ object: 2, placement: identity }] },
      /objects 0 to 1 \(given 2\)/,
    ],
    [
      'a place that is no number',
      { ...input, items: [{ object: 0, placement: shift([Number.NaN, 0, 0]) }] },
      /finite numbers/,
    ],
    ['a mesh without triangles', one(broken({ triangles: new Uint32Array() })), /at least 1 triangle/],
    [
      'a vertex that is not there',
      one(broken({ triangles: Uint32Array.from([0, 1, 4]) })),
      /below 4 .*triangle 0: 0, 1, 4/,
    ],
    [
      'a triangle of two vertices',
      one(broken({ triangles: Uint32Array.from([0, 1, 1]) })),
      /three different/,
    ],
    [
      'a coordinate that is no number',
      one(broken({ positions: Float32Array.from([0, 0, 0, 1, Number.NaN, 0, 0, 1, 0, 0, 0, 1]) })),
      /vertex 1: NaN/,
    ],
  ] as const)('%s', (_, given, words) => {
    expect(() => threeMf(given)).toThrow(words);
  });
});
