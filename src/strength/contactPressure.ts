import { demand, demandAbove0 } from './demand.ts';

/** Mean pressure of a foot on the desk, MPa: `load` N, 0 or above, on `area` mm^2. The edge of a stiff foot presses harder.
 *  @example contactPressure(20, 200) // => 0.1 */
export function contactPressure(load: number, area: number): number {
  demandAbove0('contact', { area });
  demand('contact', 'load', load, load >= 0 && load < Infinity, '0 N or above');
  return load / area;
}

/** Pressure from which a foot marks a varnished or soft desk that stands under it for months, MPa. Common practice, no source:
 *  shop advice for furniture on wood and vinyl runs from 0.2 to 0.7. */
export const MARKING_PRESSURE = 0.3;
