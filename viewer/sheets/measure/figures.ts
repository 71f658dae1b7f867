import type { Dimension } from '../../../src/measure/types.ts';
import { formatNumber, MILLIMETRES_PER_INCH } from '../../../src/units/index.ts';

/** Unit a person of this job reads lengths in. */
export type JobUnit = 'mm' | 'in';

/** A value as it stands in a field: lengths in the unit of the job, an inch to a tenth of a thou; digits as its standard
 *  uncertainty `u` justifies.
 *  @example figure(25.4, 'mm', 'in') // => '1.0000' */
export function figure(value: number, unit: Dimension['unit'], job: JobUnit, u?: number): string {
  if (unit === '1') return String(value);
  if (unit === 'mm' && job === 'in') return (value / MILLIMETRES_PER_INCH).toFixed(4);
  return formatNumber(value, u);
}

/** Unit that goes with `figure`; empty for a plain number. */
export function unitShown(unit: Dimension['unit'], job: JobUnit): string {
  if (unit === '1') return '';
  if (unit === 'mm') return job;
  return { deg: '°', degC: '°C', N: 'N', g: 'g' }[unit];
}

/** "2 to 8 mm" */
export function rangeShown(from: number, to: number, unit: Dimension['unit'], job: JobUnit): string {
  const plain = (value: number) =>
    unit === 'mm' && job === 'in'
      ? String(Number((value / MILLIMETRES_PER_INCH).toFixed(3)))
      : String(Number(value.toFixed(3)));
  return `${plain(from)} to ${plain(to)} ${unitShown(unit, job)}`.trim();
}
