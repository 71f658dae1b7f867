import type { ReportFit } from './reportInput.ts';

/** Least and greatest size of the print that feel right, mm; infinite where there is no such end. What is solid may be
 *  larger by what the window leaves below the clearance expected, what is hollow smaller. It starts from the size expected
 *  off the printer, so a ladder or a trial that shifted the clearance shifts the limits too.
 *  @example post in a socket of 4.02, window 0.00 .. 0.15, prints at 3.94 with clearance 0.08 // => [3.87, 4.02] */
export function printLimits({
  kind,
  predicted,
  clearance,
  window: [lo, hi],
}: Pick<ReportFit, 'kind' | 'predicted' | 'clearance' | 'window'>): readonly [number, number] {
  return kind === 'post' || kind === 'rib'
    ? [predicted - (hi - clearance), predicted + (clearance - lo)]
    : [predicted - (clearance - lo), predicted + (hi - clearance)];
}

/** Hundredths of a mm that callipers show, rounded into the limits so that no size is let pass that is outside. Rounding of
 *  the sums, which may be a hair past a hundredth, is not. */
const HAIR = 1e-6;
export const leastShown = (mm: number): number => Math.ceil((mm - HAIR) * 100) / 100;
export const greatestShown = (mm: number): number => Math.floor((mm + HAIR) * 100) / 100;
