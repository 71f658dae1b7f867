import {
  block,
  bore,
  cylinder,
  depth,
  difference,
  family,
  inside,
  insideRound,
  oneOf,
  outside,
  post,
  size,
  union,
} from '../../src/family/index.ts';

/** A stand-in part, invented for these tests: a bracket whose pin plugs into a bored rail and whose eye carries a
 *  rod. Origin in the rail's underside on the pin's axis, z up into the rail, x along the rod. */
export const latchBracket = family({
  id: 'latch-bracket',
  title: 'Latch bracket',
  version: 1,
  summary: 'hangs a latch rod under a rail',
  readings: {
    rod: outside('rod diameter', {
      from: 1,
      to: 6,
      typical: 2.5,
      tip: 'Large jaws across the bare rod, a quarter turn between readings.',
    }),
    hole: insideRound('hole in the rail', {
      from: 2,
      to: 12,
      typical: 5,
      times: 5,
      tip: 'Small jaws, rocked to the largest value.',
    }),
    holeDepth: depth('depth of the hole', {
      from: 1,
      to: 20,
      typical: 6,
      tip: 'Stand the end of the beam on the rail, let the rod down to the bottom.',
    }),
    drop: outside('rail to rod', {
      from: 4,
      to: 30,
      typical: 8,
      tip: 'Over rod and rail, then take off half a rod by hand.',
    }),
    gap: inside('gap between the cheeks', {
      from: 4,
      to: 40,
      typical: 12,
      tip: 'Small jaws between the cheeks, at the height of the rod.',
    }),
    stop: outside('thickness of the stop', {
      from: 0.5,
      to: 8,
      typical: 2,
      when: (choices) => choices.plate === 'with',
      tip: 'At its thinnest place.',
    }),
  },
  choices: {
    plate: oneOf(
      'stop',
      ['without', 'with'],
      'without',
      'A plate behind the bracket that keeps it from turning.',
    ),
  },
  sizes: {
    wall: size('wall around the rod', { from: 0.8, to: 5, tip: 'Thicker where there is room.' }),
  },
  normalSizes: () => ({ wall: 1.6 }),
  callouts: (d) => ({
    rod: [
      [d.gap / 2 + 3, 0, -d.drop - d.rod / 2],
      [d.gap / 2 + 3, 0, -d.drop + d.rod / 2],
    ],
    hole: [
      [-d.hole / 2, 0, 0],
      [d.hole / 2, 0, 0],
    ],
    holeDepth: [
      [d.hole / 2, 0, 0],
      [d.hole / 2, 0, d.holeDepth],
    ],
    drop: [
      [0, 0, -d.drop],
      [0, 0, 0],
    ],
    gap: [
      [-d.gap / 2, 0, -d.drop],
      [d.gap / 2, 0, -d.drop],
    ],
    stop: [
      [0, d.rod / 2 + d.wall, -2],
      [0, d.rod / 2 + d.wall + d.stop, -2],
    ],
  }),
  rules: () => [],
  interfaces: (d) => [
    bore('rod', {
      name: 'rod in eye',
      host: d.rod,
      fit: 'sliding',
      at: [0, 0, -d.drop],
      axis: [1, 0, 0],
      length: d.gap - 1,
      across: [0, 0, 1],
    }),
    post('pin', {
      name: 'pin in rail',
      host: d.hole,
      fit: 'snug',
      at: [0, 0, d.holeDepth / 2],
      axis: [0, 0, 1],
      length: d.holeDepth,
      across: [1, 0, 0],
    }),
  ],
  shape: (d, drawn) => {
    const half = d.rod / 2 + d.wall;
    const length = d.gap - 1;
    return difference(
      union(
        block([-length / 2, -half, -d.drop], [length / 2, half, 0]),
        cylinder({
          axis: 'x',
          diameter: 2 * half,
          from: [-length / 2, 0, -d.drop],
          length,
          sense: 'shaft',
          surface: 'plain',
        }),
        cylinder({
          axis: 'z',
          diameter: drawn.pin ?? d.hole,
          from: [0, 0, -0.01],
          length: d.holeDepth - 0.5,
          sense: 'shaft',
        }),
      ),
      cylinder({
        axis: 'x',
        diameter: drawn.rod ?? d.rod,
        from: [-length / 2 - 1, 0, -d.drop],
        length: length + 2,
        sense: 'bore',
      }),
    );
  },
  genus: () => 1,
  host: (d) => [
    {
      id: 'rod',
      name: 'rod',
      keepOff: 0,
      meets: ['rod'],
      shape: cylinder({ axis: 'x', diameter: d.rod, from: [-30, 0, -d.drop], length: 60, sense: 'shaft' }),
    },
    {
      id: 'rail',
      name: 'rail',
      keepOff: 0,
      meets: ['pin'],
      seat: [0, 0, 1],
      shape: difference(
        block([-30, -7, 0], [30, 7, d.holeDepth + 2]),
        cylinder({ axis: 'z', diameter: d.hole, from: [0, 0, -1], length: d.holeDepth + 1, sense: 'bore' }),
      ),
    },
    {
      id: 'cheeks',
      name: 'cheeks',
      keepOff: 0.2,
      shape: union(
        ...[-1, 1].map((side) =>
          difference(
            block(
              [Math.min(side * (d.gap / 2), side * (d.gap / 2 + 2)), -5, -d.drop - 4],
              [Math.max(side * (d.gap / 2), side * (d.gap / 2 + 2)), 5, 0],
            ),
            cylinder({
              axis: 'x',
              diameter: d.rod + 0.4,
              from: [-30, 0, -d.drop],
              length: 60,
              sense: 'bore',
            }),
          ),
        ),
      ),
    },
  ],
  motion: () => [],
  assembly: () => [],
  loads: () => [],
  lay: () => ({ name: 'pin up', turn: { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] } }),
});

/** Typical values of the stand-in, sizes filled in. */
export const latchValues = (stop: 'with' | 'without' = 'without') => ({
  rod: 2.5,
  hole: 5,
  holeDepth: 6,
  drop: 8,
  gap: 12,
  stop: stop === 'with' ? 2 : Number.NaN,
  wall: 1.6,
  choices: { plate: stop },
});
