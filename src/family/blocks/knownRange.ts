import type { Made } from '../feature.ts';

/** What a reading leaves open, mm: its value, and that give or take twice what is not known of it. `scatter` true counts also how much
 *  single readings differ, as of a thickness that is not the same all round; false only the doubt of their mean. Of a reading that was not
 *  taken, `value` on its own.
 *  @example of five readings about 2.5 that scatter by 0.05: knownRange(made, 'panelThickness', 2.5, true) // => { lo: 2.39, hi: 2.61 } */
export function knownRange(
  { known }: Pick<Made, 'known'>,
  id: string,
  value: number,
  scatter = false,
): { readonly lo: number; readonly hi: number } {
  const reading = known[id];
  const mean = reading?.contributors?.find((cause) => cause.id === `reading:${id}`)?.u ?? 0;
  const single = scatter ? mean * Math.sqrt(reading?.n ?? 1) : 0;
  const reach = 2 * Math.hypot(reading?.u ?? 0, single);
  return { lo: value - reach, hi: value + reach };
}
