/** Digits that tell any two 32-bit numbers apart (IEEE 754-2008, 5.12.2). */
const ENOUGH = 9;
const USUALLY_ENOUGH = 6;

/** A 32-bit number in the fewest digits, six at least where it has them, that read back as the same 32 bits.
 *  @example decimal32(Math.fround(3.84)) // => '3.84' */
export function decimal32(value: number): string {
  for (let digits = USUALLY_ENOUGH; digits < ENOUGH; digits++) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return String(short);
  }
  return String(Number(value.toPrecision(ENOUGH)));
}
