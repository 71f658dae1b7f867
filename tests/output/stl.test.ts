import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stl } from '../../src/output/stl.ts';
import { cube, prism, tetrahedron } from './meshes.ts';
import { readStl } from './readStl.ts';

const label = { part: 'Enter key clip', unit: 'mm', hash: '0123456789abcdef'.repeat(4) } as const;
const headerOf = (file: Uint8Array) => new TextDecoder('ascii').decode(file.subarray(0, 80));

describe('the binary header', () => {
  it('names part, unit and job, padded with blanks', () => {
    const header = headerOf(stl(cube(1), label));
    expect(header).toBe('fettle STL, Enter-key-clip, mm, job 0123456789abcdef0123456789abcdef'.padEnd(80));
  });

  it.each(['solid', 'Klammer für Enter', '\u0000\n', '', 'x'.repeat(500), '日本', '  solid cube'])(
    'stays 80 bytes of ASCII with all three in it, part %j',
    (part) => {
      const file = stl(cube(1), { ...label, part });
      const header = headerOf(file);
      expect(file.length).toBe(684);
      expect(header).toMatch(/^fettle STL, [\x21-\x7e]+, mm, job [0-9a-f]{32} *$/);
    },
  );
});

describe('the text file', () => {
  it('is named in its first and last line', () => {
    const lines = new TextDecoder().decode(stl(tetrahedron(1), { ...label, ascii: true })).split('\n');
    expect(lines[0]).toBe(`solid Enter-key-clip mm ${label.hash}`);
    expect(lines.at(-2)).toBe(`endsolid Enter-key-clip mm ${label.hash}`);
    expect(lines.at(-1)).toBe('');
    expect(lines.length).toBe(2 + 7 * 4 + 1);
  });

  it('holds the triangles of the binary file, number for number', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 40 }),
        fc.double({ min: 0.01, max: 300, noNaN: true }),
        (sides, size) => {
          const mesh = prism(sides, size, size / 3);
          const text = readStl(stl(mesh, { ...label, ascii: true }));
          const binary = readStl(stl(mesh, label));
          expect(text.map(({ corners }) => corners)).toEqual(binary.map(({ corners }) => corners));
        },
      ),
      { seed: 1, numRuns: 40 },
    );
  });
});

it('keeps every vertex of the mesh, bit for bit and in order', () => {
  const mesh = prism(7, 3.3, 1.7);
  const corners = readStl(stl(mesh, label)).flatMap((triangle) => triangle.corners);
  expect(corners.map((corner) => [...corner])).toEqual(
    [...mesh.triangles].map((v) => [...mesh.positions.slice(3 * v, 3 * v + 3)]),
  );
});

it.each([false, true])('gives the same bytes for the same mesh (text: %s)', (ascii) => {
  const [one, other] = [0, 1].map(() => stl(prism(9, 4, 2), { ...label, ascii }));
  expect(one).toEqual(other);
});

it('writes a triangle as thin as 32-bit numbers allow, with a finite normal', () => {
  const mesh = tetrahedron(1);
  mesh.positions.set([1.1754944e-38, 0, 0, 0, 1.1754944e-38, 0, 0, 0, 1.1754944e-38], 3);
  const view = new DataView(stl(mesh, label).buffer);
  for (let t = 0; t < 4; t++) {
    const normal = [0, 4, 8].map((k) => view.getFloat32(84 + 50 * t + k, true));
    expect(Math.hypot(...normal)).toBeCloseTo(1, 6);
  }
});

describe('refuses', () => {
  const spoilt = (change: (positions: Float32Array) => void) => {
    const mesh = tetrahedron(10);
    change(mesh.positions);
    return mesh;
  };
  it.each([
    ['no triangles', { ...cube(1), triangles: new Uint32Array() }, /at least 1 triangle \(given 0/],
    ['two corners', { ...cube(1), triangles: Uint32Array.of(0, 1) }, /3 vertex numbers a triangle/],
    ['a vertex that is not there', { ...cube(1), triangles: Uint32Array.of(0, 1, 8) }, /below 8 .*vertex 8/],
    ['a coordinate that is none', spoilt((p) => p.fill(Number.NaN, 3, 4)), /finite in 32 bits/],
    ['a coordinate beyond 32 bits', spoilt((p) => p.fill(1e39, 3, 4)), /finite in 32 bits .*Infinity/],
    ['a corner used twice', { ...cube(1), triangles: Uint32Array.of(0, 1, 1) }, /area above 0 \(triangle 0/],
    ['three corners in a line', spoilt((p) => p.set([5, 5, 0, 10, 10, 0], 3)), /area above 0/],
  ])('%s', (_, mesh, message) => {
    expect(() => stl(mesh, label)).toThrow(RangeError);
    expect(() => stl(mesh, label)).toThrow(message);
  });
});
