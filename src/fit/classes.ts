import { FitRefusal } from './fitRefusal.ts';
import type { FitClass, Window } from './types.ts';

/** Diametral clearance windows for plastic printed from filament on a part of another make, mm.
 *  Common practice, no source. */
export const fitClasses: Readonly<Record<FitClass, Window>> = {
  press: { lo: -0.15, hi: 0 },
  snug: { lo: 0, hi: 0.15 },
  sliding: { lo: 0.1, hi: 0.3 },
  free: { lo: 0.3, hi: 0.6 },
};

/** How far inside its one end a one-sided window is aimed at, mm: half the width of the widest class, so that
 *  a part that merely has to clear is drawn as a free fit is, and no sloppier. Common practice, no source. */
export const ONE_SIDED_AIM = 0.15;

/** Clearance window of a fit: that of a class by name, or the window itself once it is seen to be sound.
 *  mm, diametral, ends included; one end may be infinite.
 *  Throws `FitRefusal`: `window_empty` unless lo is below hi, `window_unbounded` when neither end is finite,
 *  `aim_outside_window`.
 *  @example windowOf('sliding') // => { lo: 0.1, hi: 0.3 } */
export function windowOf(fit: FitClass | Window): Window {
  const window = typeof fit === 'string' ? fitClasses[fit] : fit;
  const { lo, hi, aim } = window;
  const given = `${lo} mm to ${hi} mm`;
  if (!(lo < hi))
    throw new FitRefusal('window_empty', 'clearance window', 'its low end below its high end', given);
  if (!Number.isFinite(lo) && !Number.isFinite(hi))
    throw new FitRefusal('window_unbounded', 'clearance window', 'at least one finite end', given);
  if (aim !== undefined && !(Number.isFinite(aim) && aim >= lo && aim <= hi))
    throw new FitRefusal('aim_outside_window', 'clearance window', `an aim from ${given}`, `${aim} mm`);
  return window;
}

/** Clearance to draw for, mm: the window's own aim if it states one; else its middle; else, with one end
 *  infinite, `ONE_SIDED_AIM` inside the finite end. Throws as `windowOf`.
 *  @example aimOf({ lo: 0.3, hi: Infinity }) // => 0.45 */
export function aimOf(fit: FitClass | Window): number {
  const { lo, hi, aim } = windowOf(fit);
  if (aim !== undefined) return aim;
  if (hi === Infinity) return lo + ONE_SIDED_AIM;
  if (lo === -Infinity) return hi - ONE_SIDED_AIM;
  return (lo + hi) / 2;
}
