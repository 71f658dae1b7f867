import type { Sourced } from '../standards/friction.ts';
import { sourced } from '../standards/friction.ts';
import { demand } from './demand.ts';

/** Stress that a pressure-sensitive double-sided tape bears for years, MPa. Common practice, no source: about 55 cm^2 for each kg that
 *  hangs; a pull of seconds may be some fifteen times as strong. */
export const tapeStress = {
  lasting: sourced(0.0018, 0.001, 0.0025, 'common practice, about 55 cm^2 a kg, no source'),
  momentary: sourced(0.03, 0.01, 0.06, 'common practice, no source'),
} as const satisfies Readonly<Record<string, Sourced>>;

/** What to tell with every stick-on part. */
export const STICK_ON_CAUTION =
  'tape holds in shear and pull, not in peel: degrease both faces, press for half a minute, leave a day, and let a recess take the side load';

/** Area of tape that a stick-on part asks for, mm^2. A foot's weight presses the tape and asks for nothing.
 *
 *  `lasting` N: what pulls or shears it all the time, a case that leans; `momentary` N: what does so for seconds, such as friction
 *  when the machine is pushed along. Both 0 or above. Each is divided by the lower end of its permissible stress and the larger counts.
 *  Throws `RangeError` outside the ranges.
 *  @example adhesiveArea({ lasting: 0, momentary: 5 }) // => 500 */
export function adhesiveArea(load: { readonly lasting: number; readonly momentary: number }): number {
  for (const name of ['lasting', 'momentary'] as const) {
    demand('tape', name, load[name], load[name] >= 0 && load[name] < Infinity, '0 N or above');
  }
  return Math.max(load.lasting / tapeStress.lasting.lo, load.momentary / tapeStress.momentary.lo);
}
