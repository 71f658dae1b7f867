import {
  block,
  type Callout,
  cylinder,
  type Drawn,
  difference,
  type HostPart,
  moved,
  type Placement,
  type Pose,
  placed,
  type Route,
  type Shape,
  type SocketWall,
  union,
} from '../../src/family/index.ts';
import { type Clip, dropOf, layout, slideAt, slopeOf, swingAt } from './clip.ts';

/** Room beside the clip's face before the bar bends away to its hinge, mm; as on common bars, no source. */
const BEND = 1.2;

/** Where the socket's walls begin above the seat, mm: what touches the rim is the seat's affair, not theirs. */
const SEAT = 0.3;

const aboutX = (angle: number): Placement['rotation'] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [1, 0, 0, 0, c, -s, 0, s, c];
};

/** The bar as it lies with the key up: its end through the clip, its leg towards the hinge. */
function bar(d: Clip, depth: number): Shape {
  const wire = { diameter: d.barDiameter, sense: 'shaft' } as const;
  const bend = depth / 2 + BEND + d.barDiameter / 2;
  const end = cylinder({
    ...wire,
    axis: 'x',
    from: [depth / 2 - d.engagement, 0, 0],
    length: d.engagement + bend - depth / 2,
  });
  const leg = cylinder({ ...wire, axis: 'y', from: [0, -d.reach, 0], length: d.reach });
  return moved(union(end, placed(leg, { rotation: aboutX(slopeOf(d)), translation: [bend, 0, 0] })), [
    0,
    0,
    -dropOf(d),
  ]);
}

/** Walls of thickness `wall` around a well from z = `from` to `to`, closed at `floor` when that is given. */
function well(
  hollow: (from: number, to: number) => Shape,
  across: [number, number],
  wall: number,
  from: number,
  to: number,
): Shape {
  const [x, y] = [across[0] / 2 + wall, across[1] / 2 + wall];
  return difference(block([-x, -y, from], [x, y, to]), hollow(from - 1, to));
}

export function host(d: Clip): HostPart[] {
  const { round, depth, left, right } = layout(d, {});
  const mouth: [number, number] = round
    ? [d.socketDiameter, d.socketDiameter]
    : [d.socketLength, d.socketWidth];
  const hollow = (grow: number) => (from: number, to: number) =>
    round
      ? cylinder({
          axis: 'z',
          diameter: d.socketDiameter + grow,
          from: [0, 0, from],
          length: to - from,
          sense: 'bore',
        })
      : block(
          [-(mouth[0] + grow) / 2, -(mouth[1] + grow) / 2, from],
          [(mouth[0] + grow) / 2, (mouth[1] + grow) / 2, to],
        );
  const floor = block(
    [-mouth[0] / 2 - d.socketWall, -mouth[1] / 2 - d.socketWall, d.socketDepth],
    [mouth[0] / 2 + d.socketWall, mouth[1] / 2 + d.socketWall, d.socketDepth + 1],
  );
  const room: [number, number] = [d.roomAlong, d.roomAcross];
  const rim: [number, number] = [Math.max(d.roomAlong, mouth[0] + 1), Math.max(right - left, mouth[1] + 2)];
  const middle = (left + right) / 2;
  const wide = d.reach + 6;
  return [
    { id: 'bar', name: 'bar', shape: bar(d, depth), keepOff: 0, meets: ['bar', 'bar.run', 'mouth'] },
    {
      id: 'socket',
      name: 'socket in the keycap',
      keepOff: 0,
      meets: ['socket.width', 'socket.length'],
      shape: union(well(hollow(0), mouth, d.socketWall, SEAT, d.socketDepth), floor),
    },
    {
      id: 'rim',
      name: 'underside of the keycap',
      seat: [0, 0, 1],
      keepOff: 0,
      shape: well(hollow(0.6), rim, 1, 0, 1),
    },
    {
      id: 'room',
      name: 'walls under the keycap',
      keepOff: 0.2,
      shape: moved(
        well(
          (from, to) => block([-room[0] / 2, -room[1] / 2, from], [room[0] / 2, room[1] / 2, to + 1]),
          room,
          1,
          -2,
          0,
        ),
        [0, middle, 0],
      ),
    },
    {
      id: 'plate',
      name: 'plate',
      keepOff: 0.3,
      shape: block([-8, -wide, -d.restHeight - 1.5], [8, 8, -d.restHeight]),
    },
  ];
}

/** Steps of the key's travel shown and checked; the furthest point of the slide may fall between, which moves the bar
 *  by less than a hundredth of its run. */
const STEPS = 8;

export function motion(d: Clip): Pose[] {
  return Array.from({ length: STEPS + 1 }, (_, k) => {
    const down = (d.travel * k) / STEPS;
    const z = -dropOf(d);
    // Turn about the bar's end, which itself slides along y.
    const rotation = aboutX(-swingAt(d, down));
    const [y, lift] = [-(rotation[5] * z), z - rotation[8] * z];
    return {
      name: k === 0 ? 'key up' : `key ${down.toFixed(2)} mm down`,
      placements: {
        bar: { rotation, translation: [0, y + slideAt(d, down), lift] },
        plate: { rotation: aboutX(0), translation: [0, 0, down] },
      },
    };
  });
}

export function assembly(d: Clip): Route[] {
  const socket: SocketWall = {
    interfaces: d.choices.post === 'round' ? ['socket.width'] : ['socket.width', 'socket.length'],
    wall: d.socketWall,
    contact: Math.min(d.postLength, d.socketDepth),
    material: 'ABS',
  };
  const press = (sentence: string) => ({ kind: 'press', sentence, socket }) as const;
  const thread = (sentence: string, room: number, lever: number | null) =>
    ({
      kind: 'thread',
      sentence,
      needed: d.engagement,
      room,
      wire: { diameter: d.barDiameter, leg: d.reach },
      lever,
      socket,
    }) as const;
  const open = d.choices.mouth === 'open';
  return [
    {
      id: 'keycap-first',
      name: 'clips in the keycap first, then the bar',
      steps: [
        press('Push each clip into its socket with a flat thumb until the shoulder meets the underside'),
        open
          ? {
              kind: 'snap',
              sentence: 'Hold the clip, bring the bar to the mouth and press it in until it clicks',
              load: 'mouth',
              inHand: false,
            }
          : thread('Slide the bar sideways and thread its end into the clip', d.axialRoom, dropOf(d)),
      ],
    },
    {
      id: 'bar-first',
      name: 'clips on the bar first, then the keycap',
      steps: [
        open
          ? {
              kind: 'snap',
              sentence: 'Snap each clip onto the bar in your hand',
              load: 'mouth',
              inHand: true,
            }
          : thread(
              'Thread each clip onto the end of the bar, off the keycap',
              Number.POSITIVE_INFINITY,
              null,
            ),
        {
          kind: 'place',
          sentence: 'Stand the clips upright, posts to the sky, and lower the keycap over them',
        },
        press('Press the keycap down over each post in turn, never one side all the way first'),
      ],
    },
  ];
}

type Key =
  | 'barDiameter'
  | 'farSide'
  | 'socketWidth'
  | 'socketLength'
  | 'socketDiameter'
  | 'socketDepth'
  | 'socketWall'
  | 'roomAcross'
  | 'roomAlong'
  | 'engagement'
  | 'axialRoom'
  | 'reach'
  | 'hingeHeight'
  | 'restHeight'
  | 'travel';

/** Where the jaws touch, for the sheet. */
export function callouts(d: Clip): Record<Key, Callout> {
  const { depth, middle, left, right } = layout(d, {} as Drawn);
  const [drop, r] = [dropOf(d), d.barDiameter / 2];
  const width = d.choices.post === 'round' ? d.socketDiameter : d.socketWidth;
  const hinge: [number, number, number] = [
    0,
    -d.reach * Math.cos(slopeOf(d)),
    -drop - d.reach * Math.sin(slopeOf(d)),
  ];
  const bend = depth / 2 + BEND;
  const centre = (left + right) / 2;
  return {
    barDiameter: [
      [bend, 0, -drop - r],
      [bend, 0, -drop + r],
    ],
    socketWidth: [
      [0, -width / 2, d.socketDepth / 2],
      [0, width / 2, d.socketDepth / 2],
    ],
    socketLength: [
      [-d.socketLength / 2, 0, d.socketDepth / 2],
      [d.socketLength / 2, 0, d.socketDepth / 2],
    ],
    socketDiameter: [
      [0, -width / 2, d.socketDepth / 2],
      [0, width / 2, d.socketDepth / 2],
    ],
    socketDepth: [
      [0, 0, 0],
      [0, 0, d.socketDepth],
    ],
    socketWall: [
      [0, width / 2, 1],
      [0, width / 2 + d.socketWall, 1],
    ],
    farSide: [
      [0, middle, 0],
      [0, middle, -drop - r],
    ],
    roomAcross: [
      [0, centre - d.roomAcross / 2, -1],
      [0, centre + d.roomAcross / 2, -1],
    ],
    roomAlong: [
      [-d.roomAlong / 2, 0, -1],
      [d.roomAlong / 2, 0, -1],
    ],
    engagement: [
      [depth / 2 - d.engagement, 0, -drop],
      [depth / 2, 0, -drop],
    ],
    axialRoom: [
      [bend, 0, -drop + r],
      [bend + d.axialRoom, 0, -drop + r],
    ],
    reach: [[0, 0, -drop], hinge],
    hingeHeight: [[0, hinge[1], -d.restHeight], hinge],
    restHeight: [
      [0, right, 0],
      [0, right, -d.restHeight],
    ],
    travel: [
      [0, left, 0],
      [0, left, -d.travel],
    ],
  };
}
