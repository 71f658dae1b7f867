import type { Confidence } from './accessProbes.ts';

/** Openings in the top or side of an enclosure that has to keep a fire in, mm: none larger in any direction, or none wider
 *  however long. IEC 60950-1, 4.6.1, kept in IEC 62368-1; from memory. */
export const fireEnclosureOpening = {
  largest: 5,
  slotWidth: 1,
  source: 'IEC 60950-1, 4.6.1, kept in IEC 62368-1; from memory',
  confidence: 'medium-high',
} as const satisfies { largest: number; slotWidth: number; source: string; confidence: Confidence };

/** Distances through air and along surfaces for 230 to 250 V, pollution degree 2, material group III, mm, for basic and
 *  reinforced insulation. IEC 60950-1, tables 2K and 2N; from memory. */
export const mainsDistances = {
  clearance: { basic: 2, reinforced: 4 },
  creepage: { basic: 2.5, reinforced: 5 },
  source: 'IEC 60950-1, tables 2K and 2N, 230 to 250 V; from memory',
  confidence: 'medium',
} as const;

/** Flame class an enclosure of equipment up to 18 kg has to have. What is printed from ordinary filament has none.
 *  IEC 60950-1, IEC 62368-1; from memory. */
export const fireEnclosureMaterial = {
  upTo18kg: 'V-1',
  above: '5VB',
  source: 'IEC 60950-1 and IEC 62368-1; from memory',
  confidence: 'medium',
} as const;

/** Whether an opening, `width` by `length` in mm, the narrower first or not, is within `fireEnclosureOpening`. To point out
 *  openings that are too large; never to call an enclosure safe.
 *  @example keepsFireIn({ width: 0.9, length: 40 }) // => true
 *  @example keepsFireIn({ width: 3, length: 6 }) // => false */
export function keepsFireIn({ width, length }: { readonly width: number; readonly length: number }): boolean {
  return (
    Math.max(width, length) <= fireEnclosureOpening.largest ||
    Math.min(width, length) <= fireEnclosureOpening.slotWidth
  );
}
