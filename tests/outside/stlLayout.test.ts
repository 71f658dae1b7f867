// Layout of binary STL: StereoLithography Interface Specification, October 1989, reproduced in M. Burns, Automated
// Fabrication, section 6.5. Read back by three.js, which knows nothing of our writer.
import { describe, expect, it } from 'vitest';
import { stl } from '../../src/output/stl.ts';
import { areaOf, cube, dot, facing, prism, tetrahedron, volumeOf } from '../output/meshes.ts';
import { readStl } from '../output/readStl.ts';

const label = { part: 'gauge', unit: 'mm', hash: '00ff'.repeat(16) } as const;

/** Volumes and areas by closed form: cube e^3 and 6 e^2; corner tetrahedron l^3/6 and (3 + sqrt 3)/2 l^2; prism of n
 *  sides in a circle of radius r, height h: (n/2) r^2 sin(2 pi/n) h and two caps with n walls of 2 r sin(pi/n) h. */
const sides = 32;
const cap = (sides / 2) * 2.5 ** 2 * Math.sin((2 * Math.PI) / sides);
const walls = sides * 2 * 2.5 * Math.sin(Math.PI / sides) * 10;
const solids = [
  { name: 'cube 20', mesh: cube(20), bytes: 684, volume: 8000, area: 2400 },
  { name: 'tetrahedron 10', mesh: tetrahedron(10), bytes: 284, volume: 166.666667, area: 236.60254 },
  {
    name: 'prism 32, d 5, h 10',
    mesh: prism(sides, 5, 10),
    bytes: 6284,
    volume: 195.090322,
    area: 2 * cap + walls,
  },
];

describe.each(solids)('$name', ({ mesh, bytes, volume, area }) => {
  const file = stl(mesh, label);
  const view = new DataView(file.buffer);
  const triangles = mesh.triangles.length / 3;

  it('takes 84 bytes and 50 a triangle, with the count in between', () => {
    expect(file.length).toBe(bytes);
    expect(file.length).toBe(84 + 50 * triangles);
    expect(view.getUint32(80, true)).toBe(triangles);
  });

  it('does not begin as a text file does', () => {
    expect(new TextDecoder().decode(file.subarray(0, 5)).toLowerCase()).not.toBe('solid');
  });

  it('leaves the attribute of every triangle at 0', () => {
    for (let t = 0; t < triangles; t++) expect(view.getUint16(84 + 50 * t + 48, true)).toBe(0);
  });

  it.each([false, true])('encloses the same volume and area when read back (text: %s)', (ascii) => {
    const read = readStl(stl(mesh, { ...label, ascii }));
    expect(read.length).toBe(triangles);
    // Coordinates of 32 bits: 24 binary digits, so 1e-7 of each length.
    expect(Math.abs(volumeOf(read) - volume)).toBeLessThan(4e-7 * volume);
    expect(Math.abs(areaOf(read) - area)).toBeLessThan(4e-7 * area);
  });

  it.each([false, true])('has outward normals of unit length (text: %s)', (ascii) => {
    for (const { normal, corners } of readStl(stl(mesh, { ...label, ascii }))) {
      const direction = facing(corners);
      expect(Math.hypot(...normal)).toBeCloseTo(1, 6);
      expect(dot(normal, direction) / Math.hypot(...direction)).toBeCloseTo(1, 6);
    }
  });
});

it('writes lengths as 32-bit numbers, as IEEE 754 rounds them', () => {
  const mesh = tetrahedron(1);
  mesh.positions.set([19.05, 12.345678], 3);
  const xs = readStl(stl(mesh, label)).flatMap(({ corners }) => corners.flat());
  expect(xs.some((x) => Math.abs(x - 19.049999237) < 5e-10)).toBe(true);
  expect(xs.some((x) => Math.abs(x - 12.345678329) < 5e-10)).toBe(true);
});
