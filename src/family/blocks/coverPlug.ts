import { block, hull, prism } from '../../solid/primitives.ts';
import { difference, type Shape, union } from '../../solid/shape.ts';
import type { Vec3 } from '../../solid/vector.ts';
import type { Feature } from '../feature.ts';
import { type Interface, post, step } from '../interface.ts';
import type { Drawn } from '../values.ts';
import {
  openingOutline,
  openingReach,
  type PanelOpening,
  type PanelRow,
  rowCentres,
} from './panelOpening.ts';

/** What stands on the back of a plate in every opening and keeps it in place, mm. */
export interface CoverPlug {
  readonly row: PanelRow;
  /** How far it goes into the opening, from z = 0 down. */
  readonly depth: number;
  /** Half width of a gap in its upper and lower wall, for arms to move in; 0 for none. */
  readonly bay: number;
  /** Thickness of its wall. */
  readonly wall: number;
  /** How it sits: `sliding` where it locates the cover, `free` where screws do. */
  readonly fit: 'sliding' | 'free';
}

/** Chamfer that leads it in, mm. */
const LEAD = 0.4;
/** How far it stands into the plate, mm: bodies that only touch make a seam. */
const SUNK = 0.4;
/** Play before it is planned, mm, and how much rounder its corners are than those of the opening. */
const PLAY = 0.2;
const ROUNDER = 0.3;
/** A plug narrower inside than this is solid, mm. */
const HOLLOW = 2;
/** How far middles of openings may be off, mm: what two plugs at the tight end of their play still take up. */
const PITCH = 0.1;

/** Id of a plug's size; with several openings they count from the left: `plug2.width`. */
export const plugId = ({ count }: PanelRow, k: number, size: 'width' | 'height'): string =>
  `plug${count > 1 ? k + 1 : ''}.${size}`;

/** Plugs with their fits: `plug.width`, `plug.height` unless round, and for several openings `pitch` to the next.
 *  @example coverPlug({ row, depth: 2, bay: 0, wall: 1.6, fit: 'sliding' }, drawn).interfaces?.map(({ id }) => id) // => ['plug.width', 'plug.height'] */
export function coverPlug(of: CoverPlug, drawn: Drawn): Feature {
  const { row, depth, fit } = of;
  const { opening, count } = row;
  const { low, high } = openingReach(opening);
  const centres = plugCentres(row, drawn);
  const straight = depth - LEAD;
  const fits = centres.flatMap((x, k): Interface[] => {
    const common = { axis: [0, 0, -1] as Vec3, length: straight, fit };
    const at = (y: number): Vec3 => [x, y, -straight / 2];
    const which = count > 1 ? `plug ${k + 1}` : 'plug';
    return [
      post(plugId(row, k, 'width'), {
        ...{
          ...common,
          name: `${which} in opening, ${opening.form === 'round' || opening.form === 'D' ? 'diameter' : 'width'}`,
        },
        ...{ host: opening.width, at: at(opening.form === 'D' ? 0 : (low + high) / 2), across: [1, 0, 0] },
      }),
      ...(opening.form === 'round'
        ? []
        : [
            post(plugId(row, k, 'height'), {
              ...{ ...common, name: `${which} in opening, height`, host: high - low },
              ...{ at: at((low + high) / 2), across: [0, 1, 0] },
            }),
          ]),
      ...(k === 0
        ? []
        : [
            step(pitchId(row, k), {
              ...{ name: `plug ${k} to plug ${k + 1}`, host: row.pitch, fit: { lo: -PITCH, hi: PITCH } },
              ...{
                at: at((low + high) / 2),
                axis: [0, 0, -1],
                across: [-1, 0, 0],
                length: straight,
                centres: true,
              },
            }),
          ]),
    ];
  });
  return {
    add: () => union(...centres.map((x, k) => plugShape(of, x, sizedPlug(row, k, drawn)))),
    interfaces: fits,
  };
}

/** Ids of all plugs' fits, for the panel that they meet. */
export const plugIds = (row: PanelRow): string[] =>
  Array.from({ length: row.count }, (_, k) => [
    plugId(row, k, 'width'),
    plugId(row, k, 'height'),
    pitchId(row, k),
  ]).flat();

const pitchId = ({ count }: PanelRow, k: number): string => (count === 2 ? 'pitch' : `pitch${k}`);

/** Middles of the plugs along x as drawn, mm. */
export const plugCentres = (row: PanelRow, drawn: Drawn): number[] => rowCentres(row, drawn[pitchId(row, 1)]);

/** The k-th plug as an outline: an opening that is smaller by the play. */
function sizedPlug(row: PanelRow, k: number, drawn: Drawn): PanelOpening {
  const { opening } = row;
  const size = (which: 'width' | 'height') => drawn[plugId(row, k, which)] ?? opening[which] - PLAY;
  const [width, height] = [size('width'), opening.form === 'round' ? size('width') : size('height')];
  const cornered = opening.form === 'rectangular' || opening.form === 'rounded';
  const corner = cornered ? Math.min(opening.corner + ROUNDER, Math.min(width, height) / 2) : 0;
  return { form: opening.form, width, height, corner };
}

function plugShape({ depth, bay, wall, row }: CoverPlug, x: number, plug: PanelOpening): Shape {
  const { low, high } = openingReach(row.opening);
  const own = openingReach(plug);
  // The middle of a D moves with its flat when its sizes are drawn each for itself.
  const y = row.opening.form === 'D' ? 0 : (low + high) / 2 - (own.low + own.high) / 2;
  const outline = (by: number) => openingOutline(plug, [x, y], by, 'shaft');
  const body = hull(prism('z', outline(0), LEAD - depth, SUNK), prism('z', outline(-LEAD), -depth, SUNK));
  const hollows: Shape[] = [];
  if (Math.min(plug.width, own.high - own.low) - 2 * wall > HOLLOW)
    hollows.push(prism('z', openingOutline(plug, [x, y], -wall, 'bore'), -depth - 1, 0));
  if (bay > 0) hollows.push(block([x - bay, own.low - 1, -depth - 1], [x + bay, own.high + 1, 0]));
  return difference(body, ...hollows);
}
