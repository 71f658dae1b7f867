import type { PrinterProfile } from './types.ts';

/** How fast a small print goes, mm/s along the line, and what each layer takes besides, s. Common practice, no source. */
const SPEED = 40;
const EACH_LAYER = 4;

/** How the minutes come about, for the person who reads them. */
export const printMinutesMethod = `solid at ${SPEED} mm/s of line, and ${EACH_LAYER} s a layer`;

/** Roughly how long a small solid print takes, minutes, heating up not counted. `volume` mm^3.
 *  @example 1800 mm^3 in 21 layers of 0.2 mm, lines 0.45 mm wide // => 9.7 */
export const printMinutes = (
  volume: number,
  layers: number,
  { lineWidth, layer }: Pick<PrinterProfile, 'lineWidth' | 'layer'>,
): number => (volume / (lineWidth * layer * SPEED) + layers * EACH_LAYER) / 60;
