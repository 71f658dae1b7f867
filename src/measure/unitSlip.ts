import { MILLIMETRES_PER_INCH } from '../units/index.ts';

/** How close to 25.4 a ratio of two readings of one thing must come, as a fraction. Readings scatter by
 *  hundredths on a few mm, so 3 % holds them all and is far from 10, the other slip people make. */
const RATIO_TOLERANCE = 0.03;
/** The same for a reading that cannot be right as it is, so that only the slips have to be told apart: an inch read to a
 *  hundredth is coarse. */
const WIDE_TOLERANCE = 0.1;

/** What likely went wrong with the unit, and the value it would have been otherwise, mm. */
export interface UnitSlip {
  readonly kind: 'inches-as-millimetres' | 'millimetres-as-inches';
  readonly likely: number;
}

/** What likely happened to a number on its way from the callipers, and the value it would have been otherwise, mm. */
export interface Slip {
  readonly kind: UnitSlip['kind'] | 'point-too-far-right' | 'point-too-far-left';
  readonly likely: number;
}

/** What explains a value outside its plausible range so that it agrees with `others`, what the other readings of the same
 *  thing say: the other unit, or the point in another place. Nothing where no slip does; mm.
 *  @example slipBeside(80.3, 8.04) // => { kind: 'point-too-far-right', likely: 8.03 } */
export function slipBeside(value: number, others: number): Slip | undefined {
  const slips: readonly Slip[] = [
    ...unitSlips(value),
    { kind: 'point-too-far-right', likely: value / 10 },
    { kind: 'point-too-far-left', likely: value * 10 },
  ];
  return slips.find(({ likely }) => Math.abs(likely / others - 1) <= WIDE_TOLERANCE);
}

/** Whether a value outside its plausible range lies inside once taken in the other unit; both in mm.
 *  Undefined where the value is inside, or is outside either way.
 *  @example unitSlipInRange(0.0625, 0.8, 4) // => { kind: 'inches-as-millimetres', likely: 1.5875 } */
export function unitSlipInRange(value: number, from: number, to: number): UnitSlip | undefined {
  const inside = (mm: number) => mm >= from && mm <= to;
  return inside(value) ? undefined : unitSlips(value).find(({ likely }) => inside(likely));
}

const unitSlips = (value: number): readonly UnitSlip[] => [
  { kind: 'inches-as-millimetres', likely: value * MILLIMETRES_PER_INCH },
  { kind: 'millimetres-as-inches', likely: value / MILLIMETRES_PER_INCH },
];

/** Whether a reading is about 25.4 times, or a 25.4th of, what the other readings of the same thing say.
 *  @example unitSlipBetween(50.8, 2.01) // => { kind: 'millimetres-as-inches', likely: 2 } */
export function unitSlipBetween(value: number, others: number): UnitSlip | undefined {
  const ratio = value / others / MILLIMETRES_PER_INCH;
  const inverse = others / value / MILLIMETRES_PER_INCH;
  if (Math.abs(ratio - 1) <= RATIO_TOLERANCE) {
    return { kind: 'millimetres-as-inches', likely: value / MILLIMETRES_PER_INCH };
  }
  if (Math.abs(inverse - 1) <= RATIO_TOLERANCE) {
    return { kind: 'inches-as-millimetres', likely: value * MILLIMETRES_PER_INCH };
  }
  return undefined;
}

const words: Readonly<Record<Slip['kind'], { readonly step: string; readonly so: string }>> = {
  'inches-as-millimetres': {
    step: `times ${MILLIMETRES_PER_INCH}`,
    so: 'inches were likely taken for millimetres',
  },
  'millimetres-as-inches': {
    step: `divided by ${MILLIMETRES_PER_INCH}`,
    so: 'millimetres were likely taken for inches',
  },
  'point-too-far-right': { step: 'divided by 10', so: 'the point likely stands a place too far right' },
  'point-too-far-left': { step: 'times 10', so: 'the point likely stands a place too far left' },
};

/** "inches were likely taken for millimetres" and its counterparts. */
export const slipSentence = ({ kind }: Slip): string => words[kind].so;

/** "times 25.4" and its counterparts: what leads from the value to the likely one. */
export const slipStep = ({ kind }: Slip): string => words[kind].step;
