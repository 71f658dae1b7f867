import { power } from '../arithmetic/power.ts';
import { cdfOf, type Law, passesForNormal, varianceOf } from './law.ts';

/** Cells of the table, over 6.5 standard deviations to either side. Probabilities come out to about 1e-4. */
const CELLS = 416;
const REACH = 6.5;

/** Distribution function of a sum of independent errors, mm: any mix of normal, rectangular and Student laws,
 *  of any widths, one or many.
 *
 *  The widest law is taken exactly; the others are laid on its grid by the probability of each cell and folded
 *  in one after the other. Laying a law on a grid of step h adds h^2 / 12 to its variance (Sheppard 1898), which is
 *  taken back from the normal part. Laws whose shape cannot be seen in the sum join the normal part at once.
 *  Throws `RangeError` without a law that has any width.
 *  @example sumLaw([{ kind: 'normal', u: 0.1, dof: Infinity }]).cdf(0.196) // => 0.975 */
export function sumLaw(laws: readonly Law[]): SumLaw {
  const present = laws.filter((law) => law.u > 0);
  const variance = present.reduce((sum, law) => sum + varianceOf(law), 0);
  if (!(variance > 0)) throw new RangeError('sumLaw requires at least one law with u above 0');

  const shaped: Law[] = [];
  let normal = 0;
  for (const law of present) {
    if (passesForNormal(law, varianceOf(law) / variance)) normal += varianceOf(law);
    else shaped.push(law);
  }

  const reach = REACH * Math.sqrt(variance);
  const step = (2 * reach) / CELLS;
  const added = ((shaped.length - (normal > 0 ? 0 : 1)) * step ** 2) / 12;
  // A normal part too narrow to give that back is narrower than the grid can show anyway.
  if (normal > 4 * added) normal -= added;
  if (normal > 0) shaped.push({ kind: 'normal', u: Math.sqrt(normal), dof: Infinity });
  shaped.sort((a, b) => b.u - a.u);

  let table = new Float64Array(CELLS + 1);
  const base = cdfOf(shaped[0]!);
  for (let i = 0; i <= CELLS; i++) table[i] = base(-reach + i * step);
  for (const law of shaped.slice(1)) table = fold(table, law, step);

  return new SumLaw(table, reach, Math.min(...shaped.map((law) => law.dof)));
}

/** Distribution of a sum, as a table of its distribution function from -reach to reach. */
export class SumLaw {
  readonly #table: Float64Array;
  readonly #reach: number;
  readonly #perStep: number;
  readonly #power: number;
  readonly #flank: number;

  /** `power` is the fewest degrees of freedom in the sum: beyond the table only a Student law has anything left, and
   *  its flank falls as that power of the distance. Infinity: there is none. */
  constructor(table: Float64Array, reach: number, power: number) {
    this.#table = table;
    this.#reach = reach;
    this.#perStep = (table.length - 1) / (2 * reach);
    this.#power = power;
    this.#flank = power === Infinity ? 0 : table[0]!;
  }

  /** Probability that the sum stays below x mm. */
  cdf(x: number): number {
    const place = (x + this.#reach) * this.#perStep;
    if (place <= 0) return this.#flank === 0 ? 0 : this.#flank * power(this.#reach / -x, this.#power);
    if (place >= this.#table.length - 1)
      return this.#flank === 0 ? 1 : 1 - this.#flank * power(this.#reach / x, this.#power);
    const i = Math.trunc(place);
    const below = this.#table[i]!;
    return below + (place - i) * (this.#table[i + 1]! - below);
  }

  /** Probability that the sum falls between `lo` and `hi`, mm; either may be infinite. */
  within(lo: number, hi: number): number {
    return Math.max(0, this.cdf(hi) - this.cdf(lo));
  }
}

/** Table of the distribution function after an independent error of `law` is added. */
function fold(table: Float64Array, law: Law, step: number): Float64Array<ArrayBuffer> {
  const cdf = cdfOf(law);
  const wide =
    law.kind === 'rectangular' ? Math.sqrt(3) : law.kind === 'normal' ? 5 : law.dof >= 8 ? 10 : Infinity;
  const cells = Math.min(CELLS, Math.ceil((wide * law.u) / step + 0.5));
  const upTo = new Float64Array(cells + 1);
  for (let k = 0; k <= cells; k++) upTo[k] = cdf((k + 0.5) * step);
  const last = table.length - 1;
  const padded = new Float64Array(table.length + 2 * cells);
  padded.fill(table[0]!, 0, cells);
  padded.set(table, cells);
  padded.fill(table[last]!, cells + table.length);
  const folded = new Float64Array(table.length);
  const middle = 2 * upTo[0]! - 1;
  const beyond = 1 - upTo[cells]!;
  for (let i = 0; i <= last; i++) folded[i] = middle * padded[i + cells]! + beyond;
  for (let k = 1; k <= cells; k++) {
    const mass = upTo[k]! - upTo[k - 1]!;
    for (let i = 0; i <= last; i++) folded[i]! += mass * (padded[i + cells - k]! + padded[i + cells + k]!);
  }
  return folded;
}
