// Faults made on purpose in solids whose volume and number of holes are known in closed form.
import { beforeAll, describe, expect, test } from 'vitest';
import { DonorRefusal } from '../../../src/donor/donorRefusal.ts';
import { donorSoundness } from '../../../src/donor/repair/donorSoundness.ts';
import { type Sewn, sew } from '../../../src/donor/repair/sew.ts';
import type { DonorMesh } from '../../../src/donor/types.ts';
import { weldVertices } from '../../../src/donor/weldCorners.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { altered, blockMesh, meshFrom, together } from '../files.ts';
import { cornersOf, faultsOfMesh, volumeOf } from '../read/independent.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const cube = blockMesh([0, 0, 0], [1, 1, 1]);

const sewn = (mesh: DonorMesh, cutShort: string | null = null): Sewn => sew(weldVertices(mesh), cutShort);

function refusal(mesh: DonorMesh, cutShort: string | null = null): DonorRefusal {
  try {
    sewn(mesh, cutShort);
  } catch (error) {
    if (error instanceof DonorRefusal) return error;
    throw error;
  }
  throw new Error('it was sewn');
}

/** Sound by the project's count, by the test's, and by Manifold's; volume and holes as stated. */
function expectSound({ mesh }: Sewn, sound: { bodies: number; genus: number; volume: number }): void {
  expect(faultsOfMesh(mesh)).toEqual([]);
  const found = donorSoundness(mesh);
  expect(found).toMatchObject({ manifold: true, bodies: sound.bodies, genus: sound.genus });
  expect(found.volume).toBeCloseTo(sound.volume, 9);
  expect(volumeOf(cornersOf(mesh))).toBeCloseTo(sound.volume, 9);
  withScope(kernel, (scope) => {
    const solid = scope.keep(
      new kernel.Manifold(
        new kernel.Mesh({
          numProp: 3,
          vertProperties: Float32Array.from(mesh.positions),
          triVerts: mesh.triangles,
        }),
      ),
    );
    expect(solid.status()).toBe('NoError');
    expect(solid.volume()).toBeCloseTo(sound.volume, 5);
  });
}

const kinds = ({ repairs }: Sewn): string[] => repairs.map(({ kind }) => kind);

/** A square tube or frame around z: outer side 3, bore of half a side `bore` along its middle, height 1;
 *  genus 1, volume 8 as it stands. */
function frame(bore = 0.5): DonorMesh {
  const ring = (half: number): [number, number][] => [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ];
  const points = [0, 1].flatMap((z) =>
    [...ring(1.5), ...ring(bore)].map(([x, y]): [number, number, number] => [x, y, z]),
  );
  const quads = [0, 1, 2, 3].flatMap((k) => {
    const n = (k + 1) % 4;
    return [
      [k, n, 8 + n, 8 + k],
      [4 + n, 4 + k, 12 + k, 12 + n],
      [8 + k, 8 + n, 12 + n, 12 + k],
      [n, k, 4 + k, 4 + n],
    ];
  });
  return meshFrom(
    points,
    quads.flatMap(([a, b, c, d]): [number, number, number][] => [
      [a!, b!, c!],
      [a!, c!, d!],
    ]),
  );
}

describe('what is sound goes through', () => {
  test('a cube', () => {
    const found = sewn(cube);
    expect(found.repairs).toEqual([]);
    expect(cornersOf(found.mesh)).toEqual(cornersOf(cube));
    expectSound(found, { bodies: 1, genus: 0, volume: 1 });
  });
  test('a frame has one hole', () => expectSound(sewn(frame()), { bodies: 1, genus: 1, volume: 8 }));
  test('a hollow stays a hollow', () => {
    const hollow = altered(blockMesh([0.25, 0.25, 0.25], [0.75, 0.75, 0.75]), { turned: 'all' });
    const found = sewn(together(cube, hollow));
    expect(found.repairs).toEqual([]);
    expectSound(found, { bodies: 1, genus: 0, volume: 1 - 1 / 8 });
  });
  test('far from the origin', () => {
    const far = sewn(blockMesh([4e6, 4e6, 4e6], [4e6 + 1, 4e6 + 1, 4e6 + 1]));
    expect(donorSoundness(far.mesh).volume).toBeCloseTo(1, 9);
  });
});

describe('which way faces look', () => {
  test.each([[[3]], [[0, 1]], [[0, 4, 5, 9, 11]], [[0, 1, 2, 3, 4, 5, 6]]])(
    'triangles %j turned are turned back',
    (turned) => {
      const found = sewn(altered(cube, { turned }));
      expectSound(found, { bodies: 1, genus: 0, volume: 1 });
      expect(kinds(found)[0]).toBe('faces-turned');
    },
  );
  test('inside out', () => {
    const found = sewn(altered(cube, { turned: 'all' }));
    expect(kinds(found)).toEqual(['turned-outward']);
    expectSound(found, { bodies: 1, genus: 0, volume: 1 });
  });
  test('inside out with its hollow', () => {
    const hollow = altered(blockMesh([0.25, 0.25, 0.25], [0.75, 0.75, 0.75]), { turned: 'all' });
    const found = sewn(altered(together(hollow, cube), { turned: 'all' }));
    expect(found.repairs).toMatchObject([{ kind: 'turned-outward', count: 2 }]);
    expectSound(found, { bodies: 1, genus: 0, volume: 1 - 1 / 8 });
  });
  test('one body of two inside out', () => {
    const found = sewn(together(cube, altered(blockMesh([3, 0, 0], [5, 1, 1]), { turned: 'all' })));
    expect(found.repairs).toMatchObject([{ kind: 'turned-outward', count: 1 }]);
    expectSound(found, { bodies: 2, genus: 0, volume: 3 });
  });
  test('a strip with half a twist, thickened by nothing, is refused', () => {
    // Five triangles, the smallest band of Moebius; each with two neighbours.
    const points = [0, 1, 2, 3, 4].map((k): [number, number, number] => [
      Math.cos((2 * Math.PI * k) / 5),
      Math.sin((2 * Math.PI * k) / 5),
      0.3 * (k % 2),
    ]);
    const band = meshFrom(
      points,
      [0, 1, 2, 3, 4].map((k) => [k, (k + 1) % 5, (k + 2) % 5]),
    );
    expect(refusal(band).code).toBe('donor_one_sided');
  });
});

describe('open edges', () => {
  test('a missing triangle in a flat face is filled', () => {
    for (let t = 0; t < 12; t++) {
      const found = sewn(altered(cube, { without: [t] }));
      expect(found.repairs).toMatchObject([{ kind: 'holes-filled', count: 1 }]);
      expectSound(found, { bodies: 1, genus: 0, volume: 1 });
    }
  });
  test('a missing triangle is filled where its neighbours face at odds', () => {
    const found = sewn(altered(cube, { without: [5], turned: [0, 7] }));
    expect(kinds(found)).toEqual(['faces-turned', 'holes-filled']);
    expectSound(found, { bodies: 1, genus: 0, volume: 1 });
  });
  test('nothing is filled in a file that may be cut short', () => {
    const found = refusal(altered(cube, { without: [11] }), 'half a file');
    expect(found).toMatchObject({ code: 'donor_cut_short' });
    expect(found.message).toMatch(/^half a file; the surface is open along 3 edges: one hole, 1 across near/);
  });
  test('an open box is no flaw: refused with the place of its mouth', () => {
    const found = refusal(altered(cube, { without: [2, 3] }));
    expect(found.code).toBe('donor_surface_open');
    expect(found.message).toMatch(/open along 4 edges: one hole, 1 across near x 0.5, y 0.5, z 1;/);
    expect(found.at).toEqual([0.5, 0.5, 1]);
  });
  test('a pyramid without a face has no flat face to continue', () => {
    const pyramid = meshFrom(
      [
        [0, 0, 0],
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      [
        [0, 2, 1],
        [0, 1, 3],
        [1, 2, 3],
      ],
    );
    expect(refusal(pyramid).code).toBe('donor_surface_open');
  });
  test('the two ends of a bore without its wall stay open', () => {
    // Small enough to be filled if there were one of them.
    const walls = frame(0.01);
    const without = [...Array(32).keys()].filter((t) => t % 8 === 2 || t % 8 === 3);
    expect(refusal(altered(walls, { without })).message).toMatch(/open along 8 edges: 2 holes/);
  });
  test('a hole far smaller than the part is filled, one of a fiftieth is not', () => {
    const withHole = (size: number): DonorMesh => {
      const block = altered(blockMesh([0, 0, 0], [200, 200, 200]), { without: [2, 3] });
      const [a, b] = [100 - size / 2, 100 + size / 2];
      const rim = [
        [a, a],
        [b, a],
        [b, b],
        [a, b],
      ].flatMap(([x, y]) => [x!, y!, 200]);
      const ring = [0, 1, 2, 3].flatMap((k) => {
        const n = (k + 1) % 4;
        return [4 + k, 4 + n, 8 + n, 4 + k, 8 + n, 8 + k];
      });
      return {
        positions: Float64Array.from([...block.positions, ...rim]),
        triangles: Uint32Array.from([...block.triangles, ...ring]),
      };
    };
    const found = sewn(withHole(1));
    expect(found.repairs).toMatchObject([{ kind: 'holes-filled', count: 1, at: [100, 100, 200] }]);
    expect(faultsOfMesh(found.mesh)).toEqual([]);
    expect(donorSoundness(found.mesh)).toEqual({ manifold: true, bodies: 1, genus: 0, volume: 200 ** 3 });
    expect(refusal(withHole(200 / 25)).message).toMatch(
      /open along 4 edges: one hole, 8 across near x 100, y 100, z 200/,
    );
  });
});

describe('seams', () => {
  /** The cube with its top face made of a fan around a corner on one edge: three neighbours, one long edge opposite. */
  function withCornerOnEdge(shift: number, more: readonly number[] = [0.3]): DonorMesh {
    const top = more.map((x): [number, number, number] => [x, 0, 1 + shift]);
    const points = [0, 1].flatMap((z): [number, number, number][] => [
      [0, 0, z],
      [1, 0, z],
      [1, 1, z],
      [0, 1, z],
    ]);
    const bottomAndSides = altered(cube, { without: [2, 3] });
    const line = [4, ...more.map((_, k) => 8 + k), 5];
    const fan: [number, number, number][] = line.slice(1).map((v, k) => [line[k]!, v, 7]);
    return meshFrom(
      [...points, ...top],
      [
        ...Array.from(
          { length: 10 },
          (_, t) => [...bottomAndSides.triangles.subarray(3 * t, 3 * t + 3)] as [number, number, number],
        ),
        ...fan,
        [5, 6, 7],
      ],
    );
  }
  test.each([
    ['one corner on an edge', 0, [0.3]],
    ['three corners on an edge', 0, [0.2, 0.5, 0.9]],
    ['corners beside an edge by rounding', 4e-7, [0.3, 0.7]],
    ['corners beside an edge by few digits', 8e-6, [0.3, 0.7]],
  ] as const)('%s', (_, shift, corners) => {
    const found = sewn(withCornerOnEdge(shift, corners));
    expect(found.repairs).toMatchObject([{ kind: 'seams-split', count: corners.length }]);
    expect(faultsOfMesh(found.mesh)).toEqual([]);
    expect(donorSoundness(found.mesh)).toMatchObject({ manifold: true, bodies: 1, genus: 0 });
    expect(donorSoundness(found.mesh).volume).toBeCloseTo(1, 4);
  });
  test('both sides of a seam divided differently', () => {
    // Two halves of a block meet at x = 1 with nothing between: their rims are divided at other heights.
    const half = (x0: number, x1: number, open: 'x0' | 'x1', z: number): DonorMesh => {
      const whole = blockMesh([x0, 0, 0], [x1, 1, 1]);
      const rim = open === 'x1' ? [1, 2, 5, 6] : [0, 3, 4, 7];
      const faces = Array.from({ length: 12 }, (_, t) => [
        ...whole.triangles.subarray(3 * t, 3 * t + 3),
      ]).filter((corners) => !corners.every((v) => rim.includes(v)));
      // Every triangle with the upright rim edge at y = 0 is divided at height z.
      const [low, high] = open === 'x1' ? [1, 5] : [0, 4];
      const points = [...whole.positions, open === 'x1' ? x1 : x0, 0, z];
      const divided = faces.flatMap((corners) => {
        const k = corners.findIndex(
          (v, n) =>
            (v === low && corners[(n + 1) % 3] === high) || (v === high && corners[(n + 1) % 3] === low),
        );
        if (k < 0) return [corners];
        const [a, b, c] = [corners[k]!, corners[(k + 1) % 3]!, corners[(k + 2) % 3]!];
        return [
          [a, 8, c],
          [8, b, c],
        ];
      });
      return { positions: Float64Array.from(points), triangles: Uint32Array.from(divided.flat()) };
    };
    const found = sewn(together(half(0, 1, 'x1', 0.4), half(1, 2, 'x0', 0.7)));
    expect(found.repairs).toMatchObject([{ kind: 'seams-split', count: 2 }]);
    expectSound(found, { bodies: 1, genus: 0, volume: 2 });
  });
  test('a gap that rounding leaves is joined, a real one is not', () => {
    const apart = (gap: number): DonorMesh => {
      const split = together(
        altered(cube, { without: [2, 3] }),
        altered(cube, { without: [0, 1, 4, 5, 6, 7, 8, 9, 10, 11] }),
      );
      return { ...split, positions: split.positions.map((x, n) => (n >= 24 && n % 3 === 2 ? x + gap : x)) };
    };
    const joined = sewn(apart(5e-7));
    expect(kinds(joined)).toEqual(['corners-joined']);
    expect(donorSoundness(joined.mesh)).toMatchObject({ manifold: true, bodies: 1, genus: 0 });
    expect(refusal(apart(0.01)).code).toBe('donor_surface_open');
  });
  test('fine detail on a closed surface stays', () => {
    // A step far finer than the tolerance for open edges.
    const tiny = blockMesh([5, 5, 5], [5 + 1e-8, 5 + 1e-8, 5 + 1e-8]);
    expect(sewn(together(cube, tiny)).mesh.triangles.length).toBe(3 * 24);
  });
});

describe('surfaces that touch', () => {
  test.each<[string, DonorMesh]>([
    ['along an edge', blockMesh([1, 1, 0], [2, 2, 1])],
    ['in a whole face', blockMesh([1, 0, 0], [2, 1, 1])],
    ['at a corner', blockMesh([1, 1, 1], [2, 2, 2])],
    ['along an edge, drawn inside out', altered(blockMesh([1, 1, 0], [2, 2, 1]), { turned: 'all' })],
  ])('two cubes %s stay two', (_, other) => {
    expectSound(sewn(together(cube, other)), { bodies: 2, genus: 0, volume: 2 });
  });
  test('four cubes around an edge', () => {
    const four = together(
      cube,
      blockMesh([-1, 0, 0], [0, 1, 1]),
      blockMesh([-1, -1, 0], [0, 0, 1]),
      blockMesh([0, -1, 0], [1, 0, 1]),
    );
    expectSound(sewn(four), { bodies: 4, genus: 0, volume: 4 });
  });
  test('a body that touches itself along an edge', () => {
    // Two blocks side by side corner to corner on a plate, all of one surface: the plate is written around them.
    const { mesh, blocks } = plateWithTwoBlocks();
    const found = sewn(mesh);
    expect(kinds(found)).toEqual(['touching-parted']);
    expectSound(found, { bodies: 1, genus: 0, volume: 4 + blocks });
  });
  test('a body written twice is taken once', () => {
    const found = sewn(together(cube, cube));
    expect(found.repairs).toMatchObject([{ kind: 'doubles-dropped', count: 12 }]);
    expectSound(found, { bodies: 1, genus: 0, volume: 1 });
  });
  test('a skin without thickness on an edge is left out', () => {
    const fin = meshFrom(
      [
        [1, 0, 0],
        [1, 0, 1],
        [2, -1, 0.5],
      ],
      [
        [0, 1, 2],
        [1, 0, 2],
      ],
    );
    const found = sewn(together(cube, fin));
    expect(kinds(found)).toEqual(['touching-parted', 'skins-dropped']);
    expectSound(found, { bodies: 1, genus: 0, volume: 1 });
  });
  test('three faces at one edge are refused with the place', () => {
    const wall = meshFrom(
      [
        [0, 0, 0],
        [1, 1, 0],
        [1, 1, 1],
        [0, 0, 1],
      ],
      [
        [0, 1, 2],
        [0, 2, 3],
      ],
    );
    const found = refusal(together(cube, wall));
    expect(['donor_edges_crowded', 'donor_surface_open']).toContain(found.code);
    expect(found.at).toBeDefined();
  });
  test('faces that enclose nothing are refused', () => {
    const leaf = meshFrom(
      [
        [0, 0, 0],
        [1, 0, 0],
        [0, 1, 0],
      ],
      [
        [0, 1, 2],
        [1, 0, 2],
      ],
    );
    expect(refusal(leaf).code).toBe('donor_flat');
  });
});

test('a triangle without height gives its corner to the neighbour', () => {
  // The bottom's diagonal carries a corner: one triangle lies flat on it.
  const flat = meshFrom(
    [
      [0, 0, 0],
      [1, 0, 0],
      [1, 1, 0],
      [0, 1, 0],
      [0, 0, 1],
      [1, 0, 1],
      [1, 1, 1],
      [0, 1, 1],
      [0.5, 0.5, 0],
    ],
    [
      [0, 3, 2],
      [0, 8, 1],
      [8, 2, 1],
      [0, 2, 8],
      ...(Array.from({ length: 10 }, (_, t) => [...cube.triangles.subarray(6 + 3 * t, 9 + 3 * t)]) as [
        number,
        number,
        number,
      ][]),
    ],
  );
  const found = sewn(flat);
  expect(kinds(found)).toEqual(['flats-dropped']);
  expectSound(found, { bodies: 1, genus: 0, volume: 1 });
  const corners = cornersOf(found.mesh);
  for (let t = 0; t < corners.length; t += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = corners.subarray(t, t + 9) as unknown as number[];
    const area = Math.hypot(
      (by! - ay!) * (cz! - az!) - (bz! - az!) * (cy! - ay!),
      (bz! - az!) * (cx! - ax!) - (bx! - ax!) * (cz! - az!),
      (bx! - ax!) * (cy! - ay!) - (by! - ay!) * (cx! - ax!),
    );
    expect(area).toBeGreaterThan(0.1);
  }
});

/** A plate of 2 x 2 x 1 with blocks of 1 x 1 x 1 on two opposite quarters, which meet along an upright edge; written as
 *  one closed surface of squares cut in two. */
function plateWithTwoBlocks(): { mesh: DonorMesh; blocks: number } {
  const cells: [number, number, number][] = [
    [0, 0, 0],
    [1, 0, 0],
    [0, 1, 0],
    [1, 1, 0],
    [0, 0, 1],
    [1, 1, 1],
  ];
  const full = new Set(cells.map(String));
  const corners: [number, number, number][] = [];
  const squares: [number, number, number][][] = [];
  for (const cell of cells)
    for (let axis = 0; axis < 3; axis++)
      for (const side of [0, 1]) {
        const beyond = cell.map((x, k) => (k === axis ? x + (side ? 1 : -1) : x));
        if (full.has(String(beyond))) continue;
        const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
        const square = [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 1],
        ].map(([p, q]) => {
          const point = [...cell] as [number, number, number];
          point[axis]! += side;
          point[u]! += p!;
          point[v]! += q!;
          return point;
        });
        squares.push(side ? square : square.reverse());
      }
  const triangles = squares.flatMap((square): [number, number, number][] => {
    const first = corners.length;
    corners.push(...square);
    return [
      [first, first + 1, first + 2],
      [first, first + 2, first + 3],
    ];
  });
  return { mesh: meshFrom(corners, triangles), blocks: 2 };
}
