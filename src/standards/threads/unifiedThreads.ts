import { power } from '../../arithmetic/power.ts';
import { MILLIMETRES_PER_INCH } from '../../units/index.ts';
import { basicProfile } from './basicProfile.ts';
import { type Thread, tidy } from './thread.ts';

/** Size, major diameter in inches, threads per inch coarse and fine. ASME B1.1, table 1, read in a public copy. The numbered
 *  sizes are 0.060 + 0.013 N inch. */
const SIZES: readonly (readonly [size: string, inches: number, unc: number, unf: number])[] = [
  ['#2', 0.086, 56, 64],
  ['#3', 0.099, 48, 56],
  ['#4', 0.112, 40, 48],
  ['#5', 0.125, 40, 44],
  ['#6', 0.138, 32, 40],
  ['#8', 0.164, 32, 36],
  ['#10', 0.19, 24, 32],
  ['1/4', 0.25, 20, 28],
];

/** How often they are met: coarse and fine (which of #10 is as common as the coarse), and the sizes that few use.
 *  Common practice, no source. */
const MET = { coarse: 0.8, fine: 0.15, rare: 0.15 } as const;
const RARE = ['#3', '#5'];

/** Class 1A is allowed this much more of the major diameter than 2A: 0.090 for 0.060. ASME B1.1, from memory. */
const CLASS_1A = 1.5;

/** Unified threads #2 to 1/4, coarse and fine: ASME B1.1. Usual outside diameter is class 2A, any is 3A to 1A.
 *  @example unifiedThreads.find(({ designation }) => designation === '#4-40 UNC')?.pitch // => 0.635 */
export const unifiedThreads: readonly Thread[] = SIZES.flatMap(([size, inches, unc, unf]) => [
  thread(size, inches, unc, 'coarse'),
  thread(size, inches, unf, 'fine'),
]);

function thread(size: string, inches: number, perInch: number, series: 'coarse' | 'fine'): Thread {
  const nominal = tidy(inches * MILLIMETRES_PER_INCH);
  const pitch = MILLIMETRES_PER_INCH / perInch;
  const { allowance, tolerance } = class2A(inches, perInch);
  const mm = (inch: number): number => tidy(inch * MILLIMETRES_PER_INCH);
  const met = size === '#10' ? MET.coarse : MET[series];
  return {
    designation: `${size}-${perInch} ${series === 'coarse' ? 'UNC' : 'UNF'}`,
    system: 'unified',
    series,
    nominal,
    pitch,
    angle: 60,
    basic: basicProfile(nominal, pitch),
    outside: {
      usual: { lo: mm(inches - allowance - tolerance), hi: mm(inches - allowance) },
      any: { lo: mm(inches - allowance - CLASS_1A * tolerance), hi: nominal },
    },
    met: RARE.includes(size) ? met * MET.rare : met,
    source: 'ASME B1.1; outside diameter class 2A by its formulas, from memory',
  };
}

/** Allowance and tolerance of the major diameter, class 2A, inches. ASME B1.1, section 5, from memory: tolerance
 *  0.060 p^(2/3); allowance three tenths of the pitch diameter tolerance 0.0015 D^(1/3) + 0.0015 L^(1/2) + 0.015 p^(2/3),
 *  whose length of engagement L is the diameter for UNC and UNF. Rounded to four decimals, as printed. */
function class2A(
  diameter: number,
  perInch: number,
): { readonly allowance: number; readonly tolerance: number } {
  const coarseness = power(perInch, -2 / 3);
  const ofPitchDiameter = 0.0015 * Math.cbrt(diameter) + 0.0015 * Math.sqrt(diameter) + 0.015 * coarseness;
  return { allowance: tidy(0.3 * ofPitchDiameter), tolerance: tidy(0.06 * coarseness) };
}
