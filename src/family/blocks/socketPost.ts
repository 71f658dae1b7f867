import { block, cylinder, hull, prism } from '../../solid/primitives.ts';
import { intersection, type Shape, union } from '../../solid/shape.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import { formatLength as mm } from '../../units/index.ts';
import { astride, between } from '../callout.ts';
import type { Feature } from '../feature.ts';
import { type Interface, post, rib } from '../interface.ts';
import type { RouteStep, SocketWall } from '../load.ts';
import { sane } from '../rule.ts';
import type { Drawn } from '../values.ts';
import { wellWalls } from './wellWalls.ts';

/** A post that plugs into a socket of the machine. Readings and sizes bear the names under which `socketReadings` and
 *  `socketSizes` ask for them, mm. */
export interface PostInSocket {
  /** Id of the socket; the fits of the post are `ID.width`, along y, and `ID.length`, along x. */
  readonly id: string;
  /** For tables: "socket in the keycap". */
  readonly name: string;
  readonly plastic: SocketWall['material'];
  readonly round: boolean;
  /** With crush ribs across its width, for a socket whose width is doubtful. */
  readonly ribs: boolean;
  /** A round post gets flats along x where its flank would overhang by more than 45 degrees: for a part laid with x up. */
  readonly flats: boolean;
  readonly socketWidth: number;
  readonly socketLength: number;
  readonly socketDiameter: number;
  readonly socketDepth: number;
  readonly socketWall: number;
  readonly postLength: number;
  readonly leadIn: number;
  /** How far the post reaches down into what it stands on, mm; asked when the post is drawn. */
  readonly root: () => number;
  readonly drawn: Drawn;
}

export interface SocketPost extends Feature {
  /** Size of the post across, along y, as drawn, mm. */
  readonly width: number;
  /** Extent along x that carries the whole post, mm. */
  readonly deep: number;
  /** The socket's own size along x and y, and its hollow, wider by `grow` mm, from one height to another. */
  readonly across: Vec2;
  readonly hollow: (grow: number) => (from: number, to: number) => Shape;
  /** Where the socket takes the push, and the action of pushing the post in. */
  readonly wall: SocketWall;
  readonly press: (sentence: string) => RouteStep;
}

/** Crush ribs stand on a core that clears the socket by this much, mm, both sides together; only their crests touch. */
const RIB_HEIGHTS = 0.5;
/** Narrowest socket with room for ribs and a core between them, mm. */
const RIBBED = 2;
/** Where the socket's walls begin above the seat, mm: what touches the rim is the seat's affair, not theirs. */
const SEAT = 0.3;
/** The width holds the part; the length only locates it, and comes in whole layers when that way lies up. mm. */
const LOCATES = { lo: 0.02, hi: 0.45 } as const;

/** A rectangular or round post from z = 0 up into a socket, with a chamfer at its tip. Brings the post, its fits, the
 *  walls and floor of the socket, callouts, and the rules that leave a post. Push it in by
 *  `press`.
 *  @example socketPost({ ...d, ...{ id: 'socket', name: 'socket', plastic: 'ABS', round: false, ribs: true, flats: false, drawn } }) */
export function socketPost(d: PostInSocket): SocketPost {
  const widest = d.round ? d.socketDiameter : d.socketWidth;
  const across: Vec2 = d.round ? [widest, widest] : [d.socketLength, d.socketWidth];
  const width = d.drawn[`${d.id}.width`] ?? widest;
  const hollow = (grow: number) => (from: number, to: number) => hollowOf(d.round, across, grow, from, to);
  const wall: SocketWall = {
    interfaces: d.round ? [`${d.id}.width`] : [`${d.id}.width`, `${d.id}.length`],
    wall: d.socketWall,
    contact: Math.min(d.postLength, d.socketDepth),
    material: d.plastic,
  };
  return {
    ...{ width, deep: deepOf(d, width), across, hollow, wall },
    press: (sentence) => ({ kind: 'press', sentence, socket: wall }),
    add: () => postShape(d, width),
    interfaces: fitsOf(d, widest),
    hosts: () => [
      {
        id: d.id,
        name: d.name,
        keepOff: 0,
        meets: [`${d.id}.width`, `${d.id}.length`],
        shape: union(
          wellWalls(hollow(0), across, d.socketWall, [SEAT, d.socketDepth]),
          block(
            [-across[0] / 2 - d.socketWall, -across[1] / 2 - d.socketWall, d.socketDepth],
            [across[0] / 2 + d.socketWall, across[1] / 2 + d.socketWall, d.socketDepth + 1],
          ),
        ),
      },
    ],
    rules: rulesOf(d, widest),
    callouts: {
      socketWidth: astride('y', widest, [0, 0, d.socketDepth / 2]),
      socketLength: astride('x', d.socketLength, [0, 0, d.socketDepth / 2]),
      socketDiameter: astride('y', widest, [0, 0, d.socketDepth / 2]),
      socketDepth: between([0, 0, 0], [0, 0, d.socketDepth]),
      socketWall: between([0, widest / 2, 1], [0, widest / 2 + d.socketWall, 1]),
    },
  };
}

function deepOf(d: PostInSocket, width: number): number {
  if (!d.round) return d.drawn[`${d.id}.length`] ?? d.socketLength;
  // Without flats the body is a little deeper than the post: a cylinder that only touches a face makes a seam of no
  // thickness.
  return d.flats ? width * Math.SQRT1_2 : width + 0.4;
}

function hollowOf(round: boolean, across: Vec2, grow: number, from: number, to: number): Shape {
  if (round)
    return cylinder({
      ...{ axis: 'z', diameter: across[0] + grow, sense: 'bore' },
      ...{ from: [0, 0, from], length: to - from },
    });
  const [x, y] = [(across[0] + grow) / 2, (across[1] + grow) / 2];
  return block([-x, -y, from], [x, y, to]);
}

function postShape(d: PostInSocket, width: number): Shape {
  const [foot, tip, x] = [-d.root(), d.postLength, deepOf(d, width) / 2];
  const neck = tip - d.leadIn;
  const core = d.ribs ? width - RIB_HEIGHTS : width;
  const y = core / 2;
  const rounded = (): Shape => {
    const shaft = { axis: 'z', diameter: core, sense: 'shaft' } as const;
    // One convex solid: a shaft and a chamfer that only touch would stay two, a rounding error apart.
    const whole = hull(
      cylinder({ ...shaft, from: [0, 0, foot], length: neck - foot }),
      cylinder({ ...shaft, endDiameter: core - 2 * d.leadIn, from: [0, 0, neck], length: d.leadIn }),
    );
    return intersection(whole, block([-x, -core, foot], [x, core, tip]));
  };
  const body = d.round
    ? rounded()
    : hull(
        block([-x, -y, foot], [x, y, neck]),
        block([-x + d.leadIn, -y + d.leadIn, foot], [x - d.leadIn, y - d.leadIn, tip]),
      );
  if (!d.ribs) return body;
  const ridge = (side: 1 | -1): Contour => {
    // Flat for longer than a layer is high: with x up the part would print a sharp crest by chance only.
    const crest: Contour = [
      [-0.5, side * (y - 0.2)],
      [0.5, side * (y - 0.2)],
      [0.2, (side * width) / 2],
      [-0.2, (side * width) / 2],
    ];
    return side === 1 ? crest : crest.reverse();
  };
  return union(body, prism('z', ridge(1), foot, neck), prism('z', ridge(-1), foot, neck));
}

function fitsOf(d: PostInSocket, widest: number): Interface[] {
  const straight = d.postLength - d.leadIn;
  const width = `${d.id}.width`;
  const common = (): Pick<Interface, 'at' | 'axis' | 'length'> => ({
    ...{ at: [0, 0, straight / 2], axis: [0, 0, 1], length: straight },
  });
  const across = {
    ...{ ...common(), across: [0, 1, 0] as [number, number, number] },
    ...{ name: 'post in socket, width', host: widest },
  };
  const first = d.ribs
    ? rib(width, { ...across, fit: 'press' })
    : post(width, { ...across, fit: 'snug', ...(d.round && { round: d.drawn[width] ?? widest }) });
  if (d.round) return [first];
  const along = { ...common(), across: [1, 0, 0] as [number, number, number] };
  const name = 'post in socket, length';
  return [first, post(`${d.id}.length`, { ...along, name, host: d.socketLength, fit: LOCATES })];
}

function rulesOf(d: PostInSocket, widest: number) {
  const core = widest - (d.ribs ? RIB_HEIGHTS : 0);
  const slim = d.round ? core : Math.min(core, d.socketLength);
  return [
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
      !d.ribs || widest > RIBBED,
      d.round ? 'socketDiameter' : 'socketWidth',
      `is too narrow for crush ribs (${mm(widest)}, above ${mm(RIBBED)}); choose no ribs`,
    ),
  ];
}
