import fc from 'fast-check';
import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  EdgesGeometry,
  MeshBasicMaterial,
  Raycaster,
  Mesh as ThreeMesh,
  Vector3,
} from 'three';
import { describe, expect, it } from 'vitest';
import { type LineView, lineView, project, type Segment, viewOf } from '../../../src/output/drawing/index.ts';
import { facets } from '../../../src/solid/facets.ts';
import type { Mesh } from '../../../src/solid/mesh.ts';
import { block, cylinder, prism } from '../../../src/solid/primitives.ts';
import { difference, union } from '../../../src/solid/shape.ts';
import type { Vec2, Vec3 } from '../../../src/solid/vector.ts';
import { latchBracket, latchValues } from '../latchBracket.ts';
import { meshOfShape } from '../solids.ts';

const length = (segments: readonly Segment[]): number =>
  segments.reduce((sum, [p, q]) => sum + Math.hypot(q[0] - p[0], q[1] - p[1]), 0);

const counts = ({ visible, hidden }: LineView): [number, number] => [visible.length, hidden.length];

/** Distance of a point from the nearest of some segments. */
function distanceTo(segments: readonly Segment[], [x, y]: readonly [number, number]): number {
  let least = Infinity;
  for (const [p, q] of segments) {
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const t = Math.max(0, Math.min(1, ((x - p[0]) * dx + (y - p[1]) * dy) / (dx * dx + dy * dy)));
    least = Math.min(least, Math.hypot(x - p[0] - t * dx, y - p[1] - t * dy));
  }
  return least;
}

const has = (segments: readonly Segment[], p: Vec2, q: Vec2): boolean =>
  segments.some(([a, b]) =>
    [
      [a, b],
      [b, a],
    ].some(
      ([from, to]) =>
        Math.hypot(from![0] - p[0], from![1] - p[1]) < 1e-4 &&
        Math.hypot(to![0] - q[0], to![1] - q[1]) < 1e-4,
    ),
  );

describe('a cube', () => {
  const cube = meshOfShape(block([0, 0, 0], [10, 10, 10]));

  it.each(['isometric', 'isometricBelow'] as const)('shows 9 edges and hides 3, %s', (view) => {
    const { visible, hidden } = lineView([cube], view);
    expect([visible.length, hidden.length]).toEqual([9, 3]);
    // Each edge at sqrt(2/3) of its length.
    expect(length(visible)).toBeCloseTo(90 * Math.sqrt(2 / 3), 4);
    expect(length(hidden)).toBeCloseTo(30 * Math.sqrt(2 / 3), 4);
  });

  it.each(['front', 'back', 'left', 'right', 'top', 'bottom'] as const)(
    'is a square with nothing hidden, %s',
    (view) => expect(counts(lineView([cube], view))).toEqual([4, 0]),
  );
});

describe('a cylinder', () => {
  const [diameter, height] = [10, 20];
  const n = facets(diameter, 0.02);
  const upright = meshOfShape(
    cylinder({ axis: 'z', diameter, from: [0, 0, 0], length: height, sense: 'shaft', surface: 'plain' }),
  );

  it('is a rectangle from the side: facets do not show', () => {
    const { visible, hidden } = lineView([upright], 'front');
    expect(counts({ visible, hidden })).toEqual([4, 0]);
    expect(has(visible, [-5, 0], [-5, 20])).toBe(true);
    expect(has(visible, [5, 0], [5, 20])).toBe(true);
  });

  it('is a circle from above, of as many chords as it has facets', () => {
    const { visible, hidden } = lineView([upright], 'top');
    expect(hidden).toEqual([]);
    expect(length(visible)).toBeCloseTo(n * diameter * Math.sin(Math.PI / n), 4);
  });

  it('shows a whole ellipse, half an ellipse and two outlines in isometric', () => {
    const { visible, hidden } = lineView([upright], 'isometric');
    // Perimeter of an ellipse by Ramanujan's second formula; a projected circle has axes d and d / sqrt(3).
    const [a, b] = [diameter / 2, diameter / 2 / Math.sqrt(3)];
    const h = ((a - b) / (a + b)) ** 2;
    const ellipse = Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    const outlines = 2 * height * Math.sqrt(2 / 3);
    // Chords fall short of the arc by up to pi^2 / 6 n^2 and end at a vertex, up to a chord from the true outline.
    const chord = ellipse / n;
    expect(Math.abs(length(visible) - (1.5 * ellipse + outlines))).toBeLessThan(2 * chord);
    expect(Math.abs(length(hidden) - 0.5 * ellipse)).toBeLessThan(2 * chord);
    const outline = visible.filter(([p, q]) => Math.abs(p[0] - q[0]) < 1e-6 && Math.abs(p[1] - q[1]) > 10);
    expect(outline.length).toBe(2);
  });

  it('shows no facets even where there are 12 of them, 30 degrees apart', () => {
    expect(facets(1, 0.02)).toBe(12);
    const thin = meshOfShape(
      cylinder({ axis: 'z', diameter: 1, from: [0, 0, 0], length: 9, sense: 'shaft', surface: 'plain' }),
    );
    const lines = lineView([thin], 'isometric');
    const tall = [...lines.visible, ...lines.hidden].filter(([p, q]) => Math.abs(p[1] - q[1]) > 3);
    expect(tall.length).toBe(2);
  });

  it('keeps the edge of a lead-in as flat as 30 degrees', () => {
    const blunt = meshOfShape(
      prism(
        'x',
        [
          [0, 0],
          [10, 0],
          [10, 10],
          [10 - 4 * Math.tan(Math.PI / 6), 14],
          [0, 14],
        ],
        0,
        5,
      ),
    );
    // From the front, the flank that leans by 30 degrees ends in a line across the face.
    expect(has(lineView([blunt], 'back').visible, [-5, 10], [0, 10])).toBe(true);
  });
});

describe('a block with a through bore', () => {
  const bored = meshOfShape(
    difference(
      block([0, 0, 0], [20, 10, 10]),
      cylinder({ axis: 'x', diameter: 4, from: [-1, 5, 5], length: 22, sense: 'bore' }),
    ),
  );

  it('hides the bore from the side: two dashed lines from face to face', () => {
    const { visible, hidden } = lineView([bored], 'front');
    expect([visible.length, hidden.length]).toEqual([4, 2]);
    for (const [p, q] of hidden) {
      expect(p[1]).toBeCloseTo(q[1], 6);
      expect([p[0], q[0]].sort((a, b) => a - b).map((x) => x.toFixed(4))).toEqual(['0.0000', '20.0000']);
      // A bore's flats are tangent to its circle: 2 mm from the axis and at most to the corners.
      expect(Math.abs(p[1] - 5)).toBeGreaterThan(2 - 1e-6);
      expect(Math.abs(p[1] - 5)).toBeLessThan(2 / Math.cos(Math.PI / facets(4, 0.005)) + 1e-6);
    }
  });

  it('looks through it along its axis: a circle, nothing hidden', () => {
    const { visible, hidden } = lineView([bored], 'left');
    expect(hidden).toEqual([]);
    expect(visible.length).toBe(4 + facets(4, 0.005));
  });
});

describe('solids in front of each other', () => {
  const back = meshOfShape(block([0, 5, 0], [20, 6, 10]));
  const front = meshOfShape(block([5, 0, -5], [10, 1, 15]));

  it('hides just the covered stretch of an edge', () => {
    const { visible, hidden } = lineView([front, back], 'front');
    for (const z of [0, 10]) {
      expect(has(visible, [0, z], [5, z])).toBe(true);
      expect(has(visible, [10, z], [20, z])).toBe(true);
      expect(has(hidden, [5, z], [10, z])).toBe(true);
    }
    expect([visible.length, hidden.length]).toEqual([4 + 2 + 4, 2]);
  });

  it('lets screens hide without drawing them', () => {
    const { visible, hidden } = lineView([back], 'front', [front]);
    expect([visible.length, hidden.length]).toEqual([6, 2]);
  });

  it('cuts an edge where it dives into another solid', () => {
    const rod = meshOfShape(block([-10, 2, 4], [3, 3, 5]));
    const wall = meshOfShape(block([0, 0, 0], [4, 10, 10]));
    const { visible, hidden } = lineView([rod], 'isometric', [wall]);
    const along = [...visible].filter(([p, q]) => Math.abs(q[0] - p[0]) > 3);
    expect(hidden.length).toBeGreaterThan(0);
    // The rod's near edges come out of the wall at x = 0: 10 mm of them are seen, foreshortened.
    for (const segment of along) expect(length([segment])).toBeLessThan(10 * Math.sqrt(2 / 3) + 1e-3);
  });
});

describe('lineView against an independent library', () => {
  const values = latchValues() as never;
  const bracket = meshOfShape(latchBracket.shape(values, { rod: 2.7, pin: 4.93 }));

  // Sharp edges and rays by three.js: EdgesGeometry and Raycaster share no code with this project.
  it.each(['isometric', 'isometricBelow', 'front', 'right', 'top'] as const)(
    'agrees at every sharp edge of a real part, %s',
    (name) => {
      const view = viewOf(name);
      const { visible, hidden } = lineView([bracket], view);
      const { samples, seen } = sharpEdgeSamples(bracket, view.toward);
      let [shown, covered] = [0, 0];
      samples.forEach((p, k) => {
        const [x, y] = project(view, p);
        if (seen[k]) {
          shown++;
          expect(distanceTo(visible, [x, y]), `visible at ${p}`).toBeLessThan(0.01);
        } else {
          covered++;
          expect(distanceTo([...hidden, ...visible], [x, y]), `hidden at ${p}`).toBeLessThan(0.01);
          if (distanceTo(visible, [x, y]) > 0.05) expect(distanceTo(hidden, [x, y])).toBeLessThan(0.01);
        }
      });
      expect(shown).toBeGreaterThan(50);
      if (name.startsWith('iso')) expect(covered).toBeGreaterThan(50);
    },
  );
});

function sharpEdgeSamples(mesh: Mesh, toward: Readonly<Vec3>): { samples: Vec3[]; seen: boolean[] } {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles, 1));
  const solid = new ThreeMesh(geometry, new MeshBasicMaterial({ side: DoubleSide }));
  const edges = new EdgesGeometry(geometry, 41).getAttribute('position');
  const direction = new Vector3(...toward).negate();
  const [samples, seen]: [Vec3[], boolean[]] = [[], []];
  for (let k = 0; k < edges.count; k += 2) {
    const [a, b] = [
      new Vector3().fromBufferAttribute(edges, k),
      new Vector3().fromBufferAttribute(edges, k + 1),
    ];
    if (a.distanceTo(b) < 1e-3 || Math.abs(b.clone().sub(a).normalize().dot(direction)) > 0.999) continue;
    for (const t of [0.21, 0.5, 0.83]) {
      const p = a.clone().lerp(b, t);
      const rays = new Raycaster(p.clone().addScaledVector(direction, -100), direction);
      const [first] = rays.intersectObject(solid);
      const depth = first ? 100 - first.distance : 0;
      // Within a hair either way it is the edge itself; in between lies nothing to be sure of.
      if (depth > 1e-3 && depth < 0.05) continue;
      samples.push([p.x, p.y, p.z]);
      seen.push(depth <= 1e-3);
    }
  }
  return { samples, seen };
}

describe('relations', () => {
  it('draws any block as its three rectangles', () => {
    const side = fc.integer({ min: 1, max: 400 }).map((n) => n / 10);
    fc.assert(
      fc.property(side, side, side, (x, y, z) => {
        const mesh = meshOfShape(block([0, 0, 0], [x, y, z]));
        for (const [view, around] of [
          ['front', x + z],
          ['right', y + z],
          ['top', x + y],
        ] as const) {
          const { visible, hidden } = lineView([mesh], view);
          expect(hidden).toEqual([]);
          expect(length(visible)).toBeCloseTo(2 * around, 3);
        }
      }),
      { numRuns: 40, seed: 128 },
    );
  });

  it('sees the same lines from the opposite side of a part without hidden features', () => {
    const wedge = meshOfShape(
      prism(
        'y',
        [
          [0, 0],
          [6, 0],
          [0, 9],
        ],
        0,
        5,
      ),
    );
    expect(length(lineView([wedge], 'front').visible)).toBeCloseTo(
      length(lineView([wedge], 'back').visible),
      4,
    );
  });

  it('joins what is collinear: two touching blocks in one plane share a line', () => {
    const pair = meshOfShape(union(block([0, 0, 0], [5, 5, 5]), block([5, 0, 0], [9, 5, 5])));
    expect(counts(lineView([pair], 'front'))).toEqual([4, 0]);
  });

  it('gives the same lines for the same mesh', () => {
    const mesh = meshOfShape(latchBracket.shape(latchValues() as never, { rod: 2.7, pin: 4.93 }));
    expect(lineView([mesh], 'isometric')).toEqual(lineView([mesh], 'isometric'));
  });
});
