import type { LengthUnit } from '../types.ts';

const spellings: Readonly<Record<string, LengthUnit>> = {
  mm: 'mm',
  millimeter: 'mm',
  millimetre: 'mm',
  cm: 'cm',
  centimeter: 'cm',
  centimetre: 'cm',
  m: 'metre',
  meter: 'metre',
  metre: 'metre',
  in: 'inch',
  inch: 'inch',
  foot: 'foot',
  feet: 'foot',
  ft: 'foot',
  micron: 'micron',
  micrometer: 'micron',
  micrometre: 'micron',
};

/** Unit named in the header or solid name of an STL. The format has no field for it; some writers put `UNITS=mm` there
 *  (common practice, no source), and Fettle's own files say it in a fixed place. Null when nothing is said.
 *  @example unitInHeader('part UNITS=inches') // => 'inch' */
export function unitInHeader(header: string): LengthUnit | null {
  if (/^fettle STL, .*, mm, job [0-9a-f]+/.test(header)) return 'mm';
  const word = /\bunits?\s*[=:]\s*([a-z]+)/i.exec(header)?.[1]?.toLowerCase();
  if (word === undefined) return null;
  return spellings[word] ?? spellings[word.replace(/(e?s)$/, '')] ?? null;
}
