import type { Vec2 } from '../../solid/vector.ts';
import { rectangleHydraulic } from '../measurand.ts';
import { digit, numberWidth } from './digits.ts';
import { across, type Draft, type Group, lying, plausible, TIMES, unitAlong } from './draft.ts';
import { footedBore, footedSlot } from './footed.ts';
import type { Heights } from './heights.ts';

/** Length of the slots, mm: longer than wide, and wide enough for the blades to be turned a little. */
const SLOT_LENGTH = 5.5;

interface SlotAt {
  readonly across: 'x' | 'y';
  readonly width: number;
  readonly centre: Vec2;
  readonly number: Vec2;
}

const slotsAt: readonly SlotAt[] = [
  { across: 'x', width: 2, centre: [16.2, 4.75], number: [12.9, 2.75] },
  { across: 'x', width: 4, centre: [23.6, 4.75], number: [18.3, 2.75] },
  { across: 'y', width: 2, centre: [6.75, 14.2], number: [0.9, 12.2] },
  { across: 'y', width: 4, centre: [6.75, 19.2], number: [0.9, 17.2] },
];

/** Slots through the corner, two across x and two across y. */
export function slots(heights: Heights): Group {
  const drafts = slotsAt.map((slot, k): Draft => {
    const { across: axis, width, centre, number } = slot;
    const id = `slot.${axis}.${(k % 2) + 1}`;
    const at: [number, number, number] = [...centre, (heights.footEnd + heights.plate) / 2];
    return {
      id,
      kind: 'slot',
      axis,
      nominal: width,
      at,
      callout: across(at, unitAlong[axis], width),
      measurand: {
        kind: 'slot',
        direction: [...unitAlong[axis]],
        hydraulic: rectangleHydraulic(SLOT_LENGTH),
      },
      reading: { id, name: `Slot of ${width} mm across ${axis}`, jaw: 'inside', ...plausible(width) },
      times: TIMES,
      tip: `small jaws 2.5 mm deep in the middle of the slot, opened along ${axis}`,
      place: lying(...number, heights),
    };
  });
  const cuts = slotsAt.map(({ across: axis, width, centre }) =>
    footedSlot(centre, axis === 'x' ? [width, SLOT_LENGTH] : [SLOT_LENGTH, width], heights),
  );
  return { adds: [], cuts, drafts };
}

interface BoreAt {
  readonly diameter: number;
  readonly centre: Vec2;
  /** Lower left corner of the number; absent: to the left of the bore, in line with the others. */
  readonly number?: Vec2;
}

/** Bores stand in one column, widest first. */
const COLUMN = 7;
const boresAt: readonly BoreAt[] = [
  { diameter: 12, centre: [17.6, 17.6], number: [8.9, 22.9] },
  { diameter: 6, centre: [COLUMN, 30.6] },
  { diameter: 4, centre: [COLUMN, 37.5] },
  { diameter: 3, centre: [COLUMN, 43] },
  { diameter: 2.5, centre: [COLUMN, 47.7] },
  { diameter: 2, centre: [COLUMN, 52.3] },
  { diameter: 1.5, centre: [COLUMN, 56.8] },
];
/** Right end of the numbers in front of the column, mm. */
const NUMBERS_END = { one: 3.3, two: 5.4 } as const;

/** Seven round bores, axis upright. `firstNumber` is the number the first of them will have. */
export function bores(heights: Heights, firstNumber: number): Group {
  const drafts = boresAt.map(({ diameter, centre, number }, k): Draft => {
    const id = `bore.${k + 1}`;
    const at: [number, number, number] = [...centre, (heights.footEnd + heights.plate) / 2];
    const width = numberWidth(firstNumber + k);
    const end = width > digit.width ? NUMBERS_END.two : NUMBERS_END.one;
    const place = number ?? [end - width, centre[1] - digit.height / 2];
    return {
      id,
      kind: 'bore',
      axis: 'z',
      nominal: diameter,
      at,
      callout: across(at, unitAlong.x, diameter),
      measurand: { kind: 'bore', direction: [1, 0, 0] },
      reading: { id, name: `Bore of ${diameter} mm`, jaw: 'inside', round: true, ...plausible(diameter) },
      times: TIMES,
      tip: boreTip(diameter),
      place: lying(...place, heights),
    };
  });
  return {
    adds: [],
    cuts: boresAt.map(({ diameter, centre }) => footedBore(centre, diameter, heights)),
    drafts,
  };
}

/** Below 4 mm the two blades find room side by side only where they are ground thin. */
const boreTip = (diameter: number): string =>
  diameter < 4
    ? 'only the very tips of the small jaws go in; one reading along x, one along y'
    : 'small jaws 2.5 mm deep; one reading along x, one along y';
