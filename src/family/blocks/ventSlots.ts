import { prism } from '../../solid/primitives.ts';
import { stadium } from '../../solid/profile.ts';
import { placed, union } from '../../solid/shape.ts';
import { fireEnclosureOpening, keepsFireIn } from '../../standards/enclosureOpenings.ts';
import { oneOf, size } from '../choice.ts';
import type { Feature } from '../feature.ts';
import { sane } from '../rule.ts';
import { CELL_EDGE, type FaceCell } from './faceCells.ts';

/** Upright slots side by side in a plate, mm. */
export interface VentSlots {
  readonly cell: FaceCell;
  /** Width of a slot. */
  readonly vent: number;
  /** Plastic they go through, from z = 0 up. */
  readonly through: number;
}

/** What a family with ventilation slots lets choose and set: `vents`, `vent`. */
export const ventAsks = {
  vents: oneOf('vents', ['none', 'slots'], 'none', 'Upright slots for warm air'),
  vent: size('vent', {
    from: 0.6,
    to: 6,
    tip: 'Width of a ventilation slot; below 1 mm it keeps a wire out',
  }),
};

/** Bars between slots, mm: four lines of a usual nozzle, or as wide as the slots. */
const BAR = 1.6;

/** How many slots there are, how long each is, and how wide the bars between them, mm. */
export function ventLayout({ cell, vent }: VentSlots): {
  readonly count: number;
  readonly length: number;
  readonly bar: number;
} {
  const bar = Math.max(BAR, vent);
  const count = Math.max(0, Math.floor((cell.width - 2 * CELL_EDGE + bar) / (vent + bar)));
  return { count, length: cell.height - 2 * CELL_EDGE, bar };
}

/** Ventilation slots with round ends: the cut, the rule that there be any, and whether they are too large for an enclosure that has to keep a
 *  fire in. What a finger or a wire makes of them is `accessGaps`' affair.
 *  @example ventSlots({ cell: { x: 0, y: 0, width: 20, height: 12 }, vent: 0.9, through: 2 }).holes // => 7 */
export function ventSlots(of: VentSlots): Feature {
  const { cell, vent, through } = of;
  const { count, length, bar } = ventLayout(of);
  const fits = count > 0 && length >= 2 * vent;
  return {
    holes: fits ? count : 0,
    rules: [
      sane(
        fits,
        'vents',
        `finds no room for slots of ${vent.toFixed(2)} mm: ${Math.max(0, cell.width).toFixed(1)} x ${Math.max(0, cell.height).toFixed(1)} mm of the face are there for them`,
      ),
    ],
    cut: () =>
      union(
        ...Array.from({ length: count }, (_, k) => {
          const x = cell.x + (k - (count - 1) / 2) * (vent + bar);
          // A stadium lies along its first axis: a quarter turn stands it upright.
          return placed(prism('z', stadium(vent, length, [0, 0], { sense: 'bore' }), -1, through + 1), {
            rotation: [0, -1, 0, 1, 0, 0, 0, 0, 1],
            translation: [x, cell.y, 0],
          });
        }),
      ),
    findings: () => [
      {
        ...{ id: 'vents.fire', title: 'slots of an enclosure that keeps a fire in', value: vent, unit: 'mm' },
        ...{
          limit: keepsFireIn({ width: vent, length })
            ? Math.max(vent, fireEnclosureOpening.slotWidth)
            : fireEnclosureOpening.slotWidth,
        },
        ...{
          side: 'below',
          missed: 'caution',
          source: fireEnclosureOpening.source,
          at: [cell.x, cell.y, through],
        },
        because: `${count} slots of ${vent.toFixed(2)} x ${length.toFixed(2)} mm; such an enclosure may have slots of ${fireEnclosureOpening.slotWidth} mm, or openings of ${fireEnclosureOpening.largest} mm each way, and is never of ordinary filament`,
        remedy: 'narrower slots, if this is part of such an enclosure at all',
      },
    ],
  };
}
