import { cylinder } from '../../solid/primitives.ts';
import { moved, placed, type Shape, union } from '../../solid/shape.ts';
import type { Placement, Vec3 } from '../../solid/vector.ts';
import { formatLength as mm } from '../../units/index.ts';
import { astride, between } from '../callout.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';
import type { RouteStep, SocketWall } from '../load.ts';
import type { Pose } from '../machine.ts';
import { sane } from '../rule.ts';
import type { Swing } from './swing.ts';

/** A bar of the machine whose end lies along x in a hollow of the part, and whose leg runs to a hinge against y. Readings
 *  bear the names under which `barReading` and `swingReadings` ask for them, mm. */
export interface BarThatSwings {
  /** Id of the bar as part of the machine. */
  readonly id: string;
  readonly name: string;
  readonly swing: Swing;
  /** Part of the machine that stays with the hinge while the part goes down. */
  readonly ground: string;
  /** What goes down, and what is made: "key", "clip". */
  readonly words: { readonly moves: string; readonly part: string };
  /** The hollow: id of its fit, whether it is a slot, extent along x, and how far the bar lies below z = 0 on the machine. */
  readonly hollow: {
    readonly id: string;
    readonly slotted: boolean;
    readonly deep: number;
    readonly drop: number;
  };
  /** Further fits in which the bar meets the part. */
  readonly meets: readonly string[];
  readonly barDiameter: number;
  readonly engagement: number;
  readonly axialRoom: number;
  readonly hingeHeight: number;
}

export interface SwingingBar extends Feature {
  /** The action of threading the bar's end into a closed hollow: in a post that stands in its socket already, or off the
   *  machine, where there is all the room one wants. */
  readonly thread: (sentence: string, socket: SocketWall, where: 'in the machine' | 'loose') => RouteStep;
}

/** Room beside the part's face before the bar bends away to its hinge, mm; as on common bars, no source. */
const BEND = 1.2;
/** Steps of the travel shown and checked; the furthest point of the slide may fall between, which moves the bar by less
 *  than a hundredth of its run. */
const STEPS = 8;

/** Brings the bar as part of the machine, the poses of the travel, the rule that the bar is long enough, callouts, and
 *  the finding `binding`: whether the hollow as printed leaves the bar its slide. Thread it in by `thread` where the hollow
 *  has no mouth.
 *  @example swingingBar({ ...d, ...{ id: 'bar', name: 'bar', swing, ground: 'plate', meets: [] },
 *    ...{ words: { moves: 'key', part: 'clip' }, hollow: { id: 'bar', slotted: true, deep: 4, drop: 5 } } }).motion!().length // => 9 */
export function swingingBar(d: BarThatSwings): SwingingBar {
  const { reach, rise, travel, slope, reaches } = d.swing;
  const { deep, drop } = d.hollow;
  const [bend, top] = [deep / 2 + BEND, -drop + d.barDiameter / 2];
  const hinge: Vec3 = [0, -reach * Math.cos(slope), -drop - reach * Math.sin(slope)];
  return {
    thread: (sentence, socket, where) => ({
      ...{ kind: 'thread', sentence, needed: d.engagement, socket },
      ...{ room: where === 'loose' ? Number.POSITIVE_INFINITY : d.axialRoom },
      ...{ wire: { diameter: d.barDiameter, leg: reach }, lever: where === 'loose' ? null : drop },
    }),
    hosts: () => [
      { id: d.id, name: d.name, shape: barShape(d), keepOff: 0, meets: [d.hollow.id, ...d.meets] },
    ],
    motion: () => Array.from({ length: STEPS + 1 }, (_, k) => pose(d, k)),
    findings: (made) => [binding(d, made)],
    rules: [
      sane(
        reaches,
        'reach',
        `must be longer than the bar's end ever stands above or below its hinge line (reach ${mm(reach)}, end ${mm(rise)} above it with the ${d.words.moves} up, ${mm(rise - travel)} with the ${d.words.moves} down)`,
      ),
    ],
    callouts: {
      barDiameter: astride('z', d.barDiameter, [bend, 0, -drop]),
      engagement: between([deep / 2 - d.engagement, 0, -drop], [deep / 2, 0, -drop]),
      axialRoom: between([bend, 0, top], [bend + d.axialRoom, 0, top]),
      reach: between([0, 0, -drop], hinge),
      hingeHeight: between([0, hinge[1], hinge[2] - d.hingeHeight], hinge),
    },
  };
}

const aboutX = (angle: number): Placement['rotation'] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [1, 0, 0, 0, c, -s, 0, s, c];
};

/** The bar before it moves: its end through the part, its leg towards the hinge. */
function barShape({ barDiameter, engagement, swing, hollow: { deep, drop } }: BarThatSwings): Shape {
  const wire = { diameter: barDiameter, sense: 'shaft' } as const;
  const bend = deep / 2 + BEND + barDiameter / 2;
  const from = deep / 2 - engagement;
  const end = cylinder({ ...wire, axis: 'x', from: [from, 0, 0], length: engagement + bend - deep / 2 });
  const leg = cylinder({ ...wire, axis: 'y', from: [0, -swing.reach, 0], length: swing.reach });
  const sloped = placed(leg, { rotation: aboutX(swing.slope), translation: [bend, 0, 0] });
  return moved(union(end, sloped), [0, 0, -drop]);
}

function pose({ id, ground, words, swing, hollow }: BarThatSwings, k: number): Pose {
  const down = (swing.travel * k) / STEPS;
  const z = -hollow.drop;
  // Turn about the bar's end, which itself slides along y.
  const rotation = aboutX(-swing.turnAt(down));
  const [y, lift] = [-(rotation[5] * z), z - rotation[8] * z];
  return {
    name: k === 0 ? `${words.moves} up` : `${words.moves} ${down.toFixed(2)} mm down`,
    placements: {
      [id]: { rotation, translation: [0, y + swing.slideAt(down), lift] },
      [ground]: { rotation: aboutX(0), translation: [0, 0, down] },
    },
  };
}

function binding(
  { name, barDiameter, swing, hollow, words }: BarThatSwings,
  { prints }: Made,
): FamilyFinding {
  const { range, middle } = swing.slide;
  const width = prints[hollow.id] ?? 0;
  const play = (hollow.slotted ? Math.max(width, prints[`${hollow.id}.run`] ?? 0) : width) - barDiameter;
  return {
    ...{ id: 'binding', title: `slide of the ${name} over the travel` },
    ...{ value: range, limit: play, side: 'below', unit: 'mm' },
    because: `the ${name}'s end runs on a circle of ${mm(swing.reach)} about its hinge while the ${words.moves} goes straight: it slides ${mm(range)} in the ${words.part} over ${mm(swing.travel)} of travel, and the ${hollow.slotted ? 'slot' : 'bore'} as printed leaves ${mm(play)}`,
    source: 'geometry: slide = sqrt(reach^2 - height^2) along the travel',
    remedy: hollow.slotted
      ? 'a longer slot: read reach, hinge height and travel again'
      : 'choose a slot as guide: a round bore would bind here',
    at: [0, middle, -hollow.drop],
  };
}
