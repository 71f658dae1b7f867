import {
  block,
  bore,
  cylinder,
  difference,
  family,
  inside,
  outside,
  post,
  union,
  up,
} from '../../src/family/index.ts';

const length = 6;

/** The smallest part with one snug and one sliding interface: a post for a socket, beside it a bore for a shaft, upright
 *  on a foot. */
export default family({
  id: 'hinge',
  title: 'Hinge',
  version: 1,
  summary: 'post and bore side by side',
  readings: {
    socket: inside('socket width', {
      from: 1,
      to: 40,
      typical: 6,
      times: 5,
      tip: 'Small jaws across the socket',
    }),
    shaft: outside('shaft diameter', {
      from: 1,
      to: 40,
      typical: 6,
      times: 5,
      tip: 'Large jaws on the shaft',
    }),
  },
  choices: {},
  sizes: {},
  normalSizes: () => ({}),
  callouts: () => ({
    socket: [
      [0, 0, 0],
      [1, 0, 0],
    ],
    shaft: [
      [0, 0, 0],
      [1, 0, 0],
    ],
  }),
  rules: () => [],
  interfaces: (d) => [
    post('socket', {
      name: 'post in socket',
      host: d.socket,
      fit: 'snug',
      at: [0, 0, length / 2],
      axis: [0, 0, 1],
      length,
      across: [1, 0, 0],
    }),
    bore('shaft', {
      name: 'shaft in bore',
      host: d.shaft,
      fit: 'sliding',
      at: [0, 60, length / 2],
      axis: [0, 0, 1],
      length,
      across: [0, 1, 0],
    }),
  ],
  shape: (d, drawn) => {
    const width = drawn.socket ?? d.socket;
    const diameter = drawn.shaft ?? d.shaft;
    return difference(
      union(block([-width / 2, -3, 0], [width / 2, 3, length]), block([-25, -4, -2], [25, 90, 0])),
      cylinder({ axis: 'z', diameter, from: [0, 60, -3], length: 2 * length, sense: 'bore' }),
    );
  },
  genus: () => 1,
  host: () => [],
  motion: () => [],
  assembly: () => [],
  loads: () => [],
  lay: () => ({ name: 'upright', turn: up.z }),
});
