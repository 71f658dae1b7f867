import { block } from '../../solid/primitives.ts';
import { moved } from '../../solid/shape.ts';
import type { Vec2 } from '../../solid/vector.ts';
import { formatLength as mm } from '../../units/index.ts';
import { astride } from '../callout.ts';
import type { Feature } from '../feature.ts';
import { inside } from '../reading.ts';
import { sane } from '../rule.ts';
import { wellWalls } from './wellWalls.ts';

/** Walls of the machine on all four sides of the part, below z = 0. Readings bear the names under which `roomReadings`
 *  asks for them, mm. */
export interface WallsAroundPart {
  /** Id of the walls as part of the machine, and their name: "walls under the keycap". */
  readonly id: string;
  readonly name: string;
  /** The part in the words of a bench, and what would make it smaller along y. */
  readonly part: { readonly name: string; readonly remedy: string };
  /** Extent of the part along x about 0, and its two sides along y, mm. */
  readonly deep: number;
  readonly sides: Vec2;
  readonly roomAlong: number;
  readonly roomAcross: number;
}

/** Gap wanted between part and walls, mm: moulded walls lean by their draft. Common practice, no source. */
const KEEP_OFF = 0.2;
/** How far down the walls are drawn, mm. */
const DOWN = 2;

/** Brings the walls, the rules that the part goes between them, and the callouts of the two rooms. The part is taken to
 *  stand in the middle of them.
 *  @example roomAround({ ...d, id: 'room', name: 'walls', part: { name: 'clip', remedy: 'thinner arms would help' }, deep: 4, sides: [-3, 3] }) */
export function roomAround(d: WallsAroundPart): Feature {
  const [left, right] = d.sides;
  const middle = (left + right) / 2;
  const [x, y] = [d.roomAlong / 2, d.roomAcross / 2];
  const walls = () =>
    wellWalls((from, to) => block([-x, -y, from], [x, y, to + 1]), [d.roomAlong, d.roomAcross], 1, [
      -DOWN,
      0,
    ]);
  return {
    hosts: () => [{ id: d.id, name: d.name, keepOff: KEEP_OFF, shape: moved(walls(), [0, middle, 0]) }],
    rules: [
      // Where the part has no sides yet there is nothing to judge.
      sane(
        !(right - left > d.roomAcross),
        'roomAcross',
        `is too narrow for the ${d.part.name} (room ${mm(d.roomAcross)}, ${d.part.name} ${mm(right - left)}); ${d.part.remedy}`,
      ),
      sane(
        d.deep <= d.roomAlong,
        'roomAlong',
        `is too short for the ${d.part.name} (room ${mm(d.roomAlong)}, ${d.part.name} ${mm(d.deep)})`,
      ),
    ],
    callouts: {
      roomAcross: astride('y', d.roomAcross, [0, middle, -1]),
      roomAlong: astride('x', d.roomAlong, [0, 0, -1]),
    },
  };
}

/** What `roomAround` asks for. The words end the tips: "the walls under the keycap", "the way the bar slides", "along the
 *  end of the bar". */
export const roomReadings = (walls: string, across: string, along: string) => ({
  roomAcross: inside('room across', {
    ...{ from: 4, to: 60, typical: 11, times: 1 },
    tip: `Small jaws between ${walls}, ${across}`,
  }),
  roomAlong: inside('room along', {
    ...{ from: 2, to: 60, typical: 9, times: 1 },
    tip: `Small jaws between ${walls}, ${along}`,
  }),
});
