import { parseQuantity, type RefusedText } from './parseQuantity.ts';

/** A length understood: millimetres, and the unit it was typed in. */
export interface ParsedLength {
  readonly ok: true;
  readonly mm: number;
  readonly unit: 'mm' | 'in' | 'cm' | 'thou';
}

/** A typed length in millimetres. `defaultUnit` is meant where none is typed; a bare fraction is taken
 *  only where that is inches. Below 0 only with `sign: 'any'` (the zero offset of callipers).
 *  Inches are converted exactly (25.4 mm) and rounded once. Never throws.
 *  @example parseLength('12,34') // => { ok: true, mm: 12.34, unit: 'mm' }
 *  @example parseLength('1-1/8 in') // => { ok: true, mm: 28.575, unit: 'in' } */
export function parseLength(
  text: string,
  defaultUnit: 'mm' | 'in' = 'mm',
  options: { readonly sign?: 'positive' | 'any' } = {},
): ParsedLength | RefusedText {
  const parsed = parseQuantity(text, 'length', { ...options, defaultUnit });
  if (!parsed.ok) return parsed;
  return { ok: true, mm: parsed.value, unit: parsed.unit as ParsedLength['unit'] };
}
