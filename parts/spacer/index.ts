import {
  between,
  block,
  byRule,
  cylinder,
  difference,
  type FamilyFinding,
  family,
  hexagon,
  inside,
  oneOf,
  outside,
  prism,
  sane,
  screwHole,
  size,
  step,
  up,
} from '../../src/family/index.ts';

/** Least wall, two lines of a common nozzle, and least way to a joint, mm; most height for its width. Common practice, no source. */
const [WALL, WAY, SLENDER] = [0.8, 0.5, 4];

/** How far it reaches from its axis, mm. */
const reachOf = ({ width, choices }: { width: number; choices: { outline: string } }): number =>
  choices.outline === 'hex' ? width / Math.sqrt(3) : width / 2;

/** A ring or a hexagon around a screw or a post, between two things that it holds apart.
 *  Frame: it stands on z = 0, and its axis is z, up to what it carries. */
export default family({
  id: 'spacer',
  title: 'Spacer',
  version: 1,
  summary: 'holds a board or a bracket off what it is screwed to, around the screw or over a post',
  readings: {
    screw: outside('screw or post', {
      ...{ from: 1.6, to: 12, typical: 3 },
      tip: 'Large jaws over the crests of the thread, or over the post half-way up; a quarter turn between readings',
    }),
    gap: inside('gap', {
      ...{ from: 1, to: 60, typical: 8 },
      tip: 'Small jaws between the two, close to a spacer that is still there and tight; not where the board sags',
    }),
    joint: byRule('screw to the nearest joint', {
      ...{ from: 2, to: 60, typical: 7, optional: true },
      tip: 'Rule from the middle of the screw to the nearest joint, track or part that the spacer must not touch',
    }),
  },
  choices: {
    outline: oneOf('outline', ['round', 'hex'], 'round', 'A hex can be held while the screw is turned'),
    over: oneOf(
      'goes over',
      ['screw', 'post'],
      'screw',
      'Loose around a screw; on a post it must not rattle',
    ),
  },
  sizes: { width: size('width', { from: 3, to: 40, tip: 'Outside diameter, or across the flats of a hex' }) },
  normalSizes: (d) => ({ width: 2 * (d.screw || 3) + 2 }),
  callouts: (d) => ({
    gap: between([d.width, 0, 0], [d.width, 0, d.gap]),
    joint: between([0, 0, d.gap], [-d.joint, 0, d.gap]),
  }),
  rules: (d) => {
    const wall = (d.width - d.screw) / 2;
    const reason = `leaves a wall of ${wall.toFixed(2)} mm around the ${d.choices.over}, at least ${WALL} mm`;
    return [sane(wall >= WALL, 'width', reason)];
  },
  features: (d, drawn) => {
    const { outline, over } = d.choices;
    const height = drawn.gap ?? d.gap;
    const round = (diameter: number) =>
      cylinder({ axis: 'z', diameter, from: [0, 0, 0], length: height, sense: 'shaft' });
    return [
      {
        add: () => (outline === 'hex' ? prism('z', hexagon(d.width), 0, height) : round(d.width)),
        interfaces: [
          step('gap', {
            ...{ name: 'height in the gap', host: d.gap, fit: { lo: -0.2, hi: 0.2 }, length: d.width },
            ...{ at: [0, 0, height], axis: [1, 0, 0], across: [0, 0, -1] },
          }),
        ],
        steps: [
          { kind: 'place', sentence: 'Set all of them, lay the board on, start every screw, then tighten' },
          { kind: 'place', sentence: 'Stop when the board no longer moves: plastic creeps under more' },
        ],
      },
      screwHole({
        ...{ id: 'bore', name: over, at: [0, 0, 0], into: 1, through: height, screw: d.screw, drawn },
        fit: over === 'screw' ? 'free' : 'sliding',
      }),
    ];
  },
  host: (d) => {
    const plate = (from: number, to: number) => block([-d.width, -d.width, from], [d.width, d.width, to]);
    const way = cylinder({
      axis: 'z',
      diameter: 1.15 * d.screw,
      from: [0, 0, -9],
      length: d.gap + 20,
      sense: 'bore',
    });
    const [floor, board] = [plate(-2, 0), plate(d.gap, d.gap + 1.6)].map((one) => difference(one, way));
    return [
      { id: 'floor', name: 'what it stands on', shape: floor!, keepOff: 0, seat: [0, 0, -1] },
      { id: 'board', name: 'what it carries', shape: board!, keepOff: 0, meets: ['gap'] },
    ];
  },
  findings: (d, { prints }) => {
    const aside = reachOf(d) + (prints.bore! - d.screw) / 2;
    const common = { source: 'common practice, no source', at: [reachOf(d), 0, d.gap] } as const;
    const slender: FamilyFinding = {
      ...{ ...common, id: 'slender', title: 'height for its width', value: d.gap / d.width, unit: '1' },
      ...{ limit: SLENDER, side: 'below', missed: 'caution', remedy: 'a larger width' },
      because: `${d.gap.toFixed(1)} mm high and ${d.width.toFixed(1)} mm wide; a slim one sways in print and tips`,
    };
    const joint: FamilyFinding = {
      ...{ ...common, id: 'joint', title: 'way to the nearest joint', value: d.joint - aside, unit: 'mm' },
      ...{ limit: WAY, side: 'above', remedy: 'a round one, or a smaller width' },
      because: `pushed aside it reaches ${aside.toFixed(1)} mm from the middle; the joint is ${d.joint.toFixed(1)} mm off`,
    };
    return Number.isNaN(d.joint) ? [slender] : [slender, joint];
  },
  cautions: () => [
    'Where the old spacers were metal, or the board is bare copper around the hole, they were its earth: plastic cuts that off, so fit metal there, or a wire',
  ],
  lay: () => ({ name: 'standing', turn: up.z }),
});
