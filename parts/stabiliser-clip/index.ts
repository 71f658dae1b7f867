import {
  depth,
  type FamilyFinding,
  family,
  inside,
  insideRound,
  type Made,
  oneOf,
  outside,
  type Rule,
  ratio,
  sane,
  size,
  up,
} from '../../src/family/index.ts';
import { type Clip, dropOf, layout, slideOf } from './clip.ts';
import { assembly, callouts, host, motion } from './machine.ts';
import { interfaces, loads, ribHeights, shape } from './shape.ts';

const mm = (value: number): string => `${value.toFixed(2)} mm`;

function rules(d: Clip): Rule[] {
  const drop = dropOf(d);
  const height = d.restHeight - drop - d.hingeHeight;
  const { width, left, right, outer, lip, depth } = layout(d, {});
  const widest = d.choices.post === 'round' ? d.socketDiameter : d.socketWidth;
  // A bar too short to swing has no slide, and what hangs on the slide is not judged.
  const swings = d.reach > Math.max(Math.abs(height), Math.abs(height - d.travel));
  const core = widest - (d.choices.ribs === 'crush' ? ribHeights : 0);
  const slim = d.choices.post === 'round' ? core : Math.min(core, depth);
  const clear = d.restHeight - d.travel;
  return [
    sane(
      swings,
      'reach',
      `must be longer than the bar's end ever stands above or below its hinge line (reach ${mm(d.reach)}, end ${mm(height)} above it with the key up, ${mm(height - d.travel)} with the key down)`,
    ),
    sane(
      drop > width / 2 + 0.8,
      'farSide',
      `leaves no plastic between bar and keycap: the bar's middle must lie at least its radius and 0.80 mm below the underside (it lies ${mm(drop)} below)`,
    ),
    sane(
      d.travel < d.restHeight,
      'travel',
      `must be shorter than the rest height, or the keycap would pass through the plate (travel ${mm(d.travel)}, rest height ${mm(d.restHeight)})`,
    ),
    sane(
      drop + outer < clear,
      'restHeight',
      `leaves no room for the clip above the plate with the key down: clip ${mm(drop + outer)} tall, room ${mm(clear)}; check far side of the bar, rest height and travel`,
    ),
    sane(
      !swings || right - left <= d.roomAcross,
      'roomAcross',
      `is too narrow for the clip (room ${mm(d.roomAcross)}, clip ${mm(right - left)}); thinner arms or a smaller shoulder would help`,
    ),
    sane(
      depth <= d.roomAlong,
      'roomAlong',
      `is too short for the clip (room ${mm(d.roomAlong)}, clip ${mm(depth)})`,
    ),
    sane(
      d.postLength < d.socketDepth,
      'postLength',
      `must stop short of the socket's floor (post ${mm(d.postLength)}, socket ${mm(d.socketDepth)} deep)`,
    ),
    sane(
      d.leadIn < d.postLength / 2 && 2 * d.leadIn < slim * 0.7,
      'leadIn',
      `must leave a straight post (lead-in ${mm(d.leadIn)}, post ${mm(d.postLength)} long and ${mm(slim)} across)`,
    ),
    sane(
      !swings || d.choices.mouth === 'closed' || outer - lip > 0.5,
      'arm',
      `leaves lips too thin to hold the bar (${mm(outer - lip)}, at least 0.50 mm)`,
    ),
    sane(
      d.choices.ribs === 'none' || widest > 2,
      'socketWidth',
      `is too narrow for crush ribs (${mm(widest)}, above 2.00 mm); choose no ribs`,
    ),
  ];
}

function findings(d: Clip, { prints }: Made): FamilyFinding[] {
  const { range, middle } = slideOf(d);
  const { slotted, overall } = layout(d, prints);
  const play = slotted ? overall - d.barDiameter : (2 * ((prints.bar ?? 0) - d.barDiameter)) / 2;
  return [
    {
      id: 'binding',
      title: 'slide of the bar over the travel',
      value: range,
      limit: play,
      side: 'below',
      unit: 'mm',
      because: `the bar's end runs on a circle of ${mm(d.reach)} about its hinge while the key goes straight: it slides ${mm(range)} in the clip over ${mm(d.travel)} of travel, and the ${slotted ? 'slot' : 'bore'} as printed leaves ${mm(play)}`,
      source: 'geometry: slide = sqrt(reach^2 - height^2) along the travel',
      remedy: slotted
        ? 'a longer slot: read reach, hinge height and travel again'
        : 'choose a slot as guide: a round bore would bind here',
      at: [0, middle, -dropOf(d)],
    },
  ];
}

/** The clip that plugs under one end of a wide key and carries the end of its levelling bar.
 *  Frame: origin on the keycap's underside, middle of the socket; z up into the keycap, x along the bar's end,
 *  y the way the bar's end slides while the key travels, away from its hinge. */
export default family({
  id: 'stabiliser-clip',
  title: 'Stabiliser clip',
  version: 1,
  summary:
    'carries one end of the wire bar that keeps a wide key level; plugs into a socket under the keycap',
  readings: {
    barDiameter: outside('bar diameter', {
      from: 0.8,
      to: 4,
      typical: 1.6,
      times: 5,
      // Usual diameters of drawn spring wire; common practice, no source.
      nominals: [1, 1.2, 1.4, 1.5, 1.6, 1.8, 2, 2.2, 2.5, 3],
      tip: 'Large jaws across the bare wire near its end, where it is neither bent nor dented; a quarter turn between readings',
    }),
    socketWidth: inside('socket width', {
      from: 1.5,
      to: 12,
      typical: 4,
      times: 5,
      when: (c) => c.post === 'rectangular',
      tip: 'Small jaws across the socket, the way the bar slides; rock gently and take the largest',
    }),
    socketLength: inside('socket length', {
      from: 1.5,
      to: 12,
      typical: 4.4,
      when: (c) => c.post === 'rectangular',
      tip: 'Small jaws across the socket, along the end of the bar',
    }),
    socketDiameter: insideRound('socket diameter', {
      from: 2,
      to: 12,
      typical: 4,
      times: 5,
      when: (c) => c.post === 'round',
      tip: 'Small jaws in the socket; turn between readings and take each largest',
    }),
    socketDepth: depth('socket depth', {
      from: 1.5,
      to: 15,
      typical: 4.5,
      tip: 'Depth rod to the floor of the socket, beam flat on its rim',
    }),
    socketWall: outside('socket wall', {
      from: 0.4,
      to: 5,
      typical: 1.2,
      times: 2,
      tip: 'Large jaws over the wall of the socket at its rim, thinnest place',
    }),
    farSide: depth('underside to far side of the bar', {
      from: 2,
      to: 30,
      typical: 6.6,
      times: 5,
      tip: 'Key level and up: depth rod from the underside beside the socket to the far side of the bar; or on a surviving clip, shoulder to the far side of the bore with the bar in it',
    }),
    roomAcross: inside('room across', {
      from: 4,
      to: 60,
      typical: 11,
      times: 1,
      tip: 'Small jaws between the walls under the keycap, the way the bar slides',
    }),
    roomAlong: inside('room along', {
      from: 2,
      to: 60,
      typical: 9,
      times: 1,
      tip: 'Small jaws between the walls under the keycap, along the end of the bar',
    }),
    engagement: outside('end of the bar', {
      from: 1,
      to: 20,
      typical: 5,
      times: 2,
      tip: 'Length of the straight end of the bar that lies in the clip, tip to bend',
    }),
    axialRoom: inside('free room along the bar', {
      from: 0,
      to: 60,
      typical: 3,
      times: 1,
      tip: 'How far the bar can be moved along its end, in the machine, before it strikes something',
    }),
    reach: outside('reach of the bar', {
      from: 4,
      to: 60,
      typical: 14,
      tip: 'Middle of the bar’s end to the middle of its hinge length: read over both wires and take one wire off',
    }),
    hingeHeight: depth('hinge height', {
      from: 0.2,
      to: 20,
      typical: 1.5,
      tip: 'Plate to the middle of the hinge length: depth rod to the plate from the wire’s top, less half a wire',
    }),
    restHeight: depth('rest height', {
      from: 4,
      to: 40,
      typical: 13,
      tip: 'Underside of the keycap to the plate, key up',
    }),
    travel: depth('travel', {
      from: 0.5,
      to: 8,
      typical: 3.8,
      tip: 'How far the key goes down: top of the keycap to the plate, key up and key down, one less the other',
    }),
  },
  choices: {
    post: oneOf('post', ['rectangular', 'round'], 'rectangular', 'What the socket in the keycap looks like'),
    ribs: oneOf(
      'crush ribs',
      ['none', 'crush'],
      'none',
      'Small ridges on the post that give way, for a socket whose width is doubtful',
    ),
    guide: oneOf(
      'guide',
      ['slot', 'bore'],
      'slot',
      'A slot lets the bar slide over the travel; a round bore only where it hardly slides',
    ),
    mouth: oneOf(
      'mouth',
      ['open', 'closed'],
      'open',
      'The bar snaps in from below, or its end is threaded in',
    ),
    lay: oneOf(
      'lay',
      ['side', 'upright'],
      'side',
      'On its side the arms bend along the layers and are strong; upright they bend across them',
    ),
  },
  sizes: {
    arm: size('arm', { from: 0.6, to: 3, tip: 'Thickness of plastic around the bar' }),
    mouthShare: ratio('mouth share', {
      from: 0.6,
      to: 0.98,
      tip: 'Printed mouth over bar diameter: less holds harder and strains more',
    }),
    shoulder: size('shoulder', {
      from: 0.3,
      to: 4,
      tip: 'How far the shoulder stands beyond the post, each side',
    }),
    postLength: size('post length', { from: 1, to: 14, tip: 'How far the post goes into the socket' }),
    leadIn: size('lead-in', { from: 0.2, to: 2, tip: 'Chamfer at the tip of the post' }),
  },
  normalSizes: (d) => ({
    arm: 1.1,
    mouthShare: 0.88,
    shoulder: 1,
    postLength: d.socketDepth - 0.4,
    leadIn: 0.4,
  }),
  callouts,
  rules,
  interfaces,
  shape,
  host,
  motion,
  assembly,
  loads,
  findings,
  cautions: () => [
    'Unplug the keyboard before you open it; if it shares a case with a picture tube, leave the case to somebody qualified: the tube holds a charge long after it is switched off',
    'Old keycaps are brittle: what does not go in by thumb is too large, and force only moves the crack to the part nobody sells',
  ],
  genus: (d) => (d.choices.mouth === 'closed' ? 1 : 0),
  lay: (d) =>
    d.choices.lay === 'side'
      ? { name: 'on its side, bar upright', turn: up.x }
      : { name: 'upright, post down', turn: up['-z'] },
});
