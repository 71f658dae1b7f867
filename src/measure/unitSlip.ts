import { MILLIMETRES_PER_INCH } from '../units/index.ts';

/** How close to 25.4 a ratio of two readings of one thing must come, as a fraction. Readings scatter by
 *  hundredths on a few mm, so 3 % holds them all and is far from 10, the other slip people make. */
const RATIO_TOLERANCE = 0.03;

/** What likely went wrong with the unit, and the value it would have been otherwise, mm. */
export interface UnitSlip {
  readonly kind: 'inches-as-millimetres' | 'millimetres-as-inches';
  readonly likely: number;
}

/** Whether a value outside its plausible range lies inside once taken in the other unit; both in mm.
 *  Undefined where the value is inside, or is outside either way.
 *  @example unitSlipInRange(0.0625, 0.8, 4) // => { kind: 'inches-as-millimetres', likely: 1.5875 } */
export function unitSlipInRange(value: number, from: number, to: number): UnitSlip | undefined {
  const inside = (mm: number) => mm >= from && mm <= to;
  if (inside(value)) return undefined;
  const longer = value * MILLIMETRES_PER_INCH;
  if (inside(longer)) return { kind: 'inches-as-millimetres', likely: longer };
  const shorter = value / MILLIMETRES_PER_INCH;
  if (inside(shorter)) return { kind: 'millimetres-as-inches', likely: shorter };
  return undefined;
}

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

/** "so inches were likely taken for millimetres" and its counterpart. */
export function slipSentence(slip: UnitSlip): string {
  return slip.kind === 'inches-as-millimetres'
    ? 'inches were likely taken for millimetres'
    : 'millimetres were likely taken for inches';
}
