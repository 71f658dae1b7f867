import type { ReadingSpec } from '../../../src/family/reading.ts';
import { pick } from './share.ts';

const INCH = 25.4;

/** How a person may write a length in mm down, for jobs whose numbers without a unit are mm. */
const LENGTHS: readonly ((mm: number) => string | number)[] = [
  (mm) => mm.toFixed(2),
  (mm) => mm.toFixed(2),
  (mm) => mm.toFixed(2).replace('.', ','),
  (mm) => Number(mm.toFixed(2)),
  (mm) => `${mm.toFixed(2)} mm`,
  (mm) => `${(mm / 10).toFixed(3)}cm`,
  (mm) => `${(mm / INCH).toFixed(4)}"`,
  (mm) => `${(mm / INCH).toFixed(4)} in`,
  (mm) => `${Math.max(1, Math.round((64 * mm) / INCH))}/64 in`,
];
const MASSES: readonly ((g: number) => string | number)[] = [
  (g) => g.toFixed(0),
  (g) => `${g.toFixed(1)} g`,
  (g) => `${(g / 1000).toFixed(3)} kg`,
];

/** A reading as typed; `style` 0 to 1 says how. */
export function readingText(
  value: number,
  { quantity }: Pick<ReadingSpec, 'quantity'>,
  unit: 'mm' | 'in',
  style: number,
): string | number {
  if (quantity === 'mass') return pick(MASSES, style)(value);
  // Where a bare number is an inch, the styles that state no unit say inches.
  if (unit === 'in' && style < 0.5) return (value / INCH).toFixed(4);
  return pick(unit === 'in' ? LENGTHS.slice(4) : LENGTHS, style)(value);
}
