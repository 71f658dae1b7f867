import pow from '@stdlib/math-base-special-pow';

/** A base raised to an exponent, the same in every engine: what `**` gives beyond squares, square roots and powers of two
 *  differs in the last digit from one to the next, and whoever packs a page puts `**` for `Math.pow`.
 *  @example power(2, 10) // => 1024 */
export const power = (base: number, exponent: number): number => pow(base, exponent);
