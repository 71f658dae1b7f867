import { expect, it } from 'vitest';
import { edgeMates } from '../../../src/donor/features/edgeMates.ts';

it('pairs the two sides of each edge', () => {
  expect([...edgeMates(Uint32Array.of(0, 1, 2, 2, 1, 3))]).toEqual([-1, 3, -1, 1, -1, -1]);
  const tetrahedron = Uint32Array.of(0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3);
  const mates = edgeMates(tetrahedron);
  mates.forEach((mate, h) => {
    expect(mates[mate]).toBe(h);
    expect(Math.floor(mate / 3)).not.toBe(Math.floor(h / 3));
  });
});

it('pairs nothing where three triangles meet, or two run the same way', () => {
  expect([...edgeMates(Uint32Array.of(0, 1, 2, 1, 0, 3, 1, 0, 4))].every((mate) => mate === -1)).toBe(true);
  expect([...edgeMates(Uint32Array.of(0, 1, 2, 0, 1, 3))].every((mate) => mate === -1)).toBe(true);
  expect([...edgeMates(new Uint32Array(0))]).toEqual([]);
});
