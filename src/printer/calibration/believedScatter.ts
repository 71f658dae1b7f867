import { PRIOR_SCATTER } from './scatter.ts';

/** Repeatability that filament printers have, mm, and the share of printers that have some other. Common practice, no
 *  source. */
const USUAL = { from: 0.015, to: 0.04, others: 0.05 } as const;

/** Standard deviations looked at, mm, evenly in the logarithm. */
const GRID = { from: 0.003, to: 0.3, cells: 600 } as const;

/** A coupon alone says no less than this share of the steadied estimate. */
const LEAST = 0.7;

/** What to believe of the scatter of prints once the coupon has spoken: Bayes, with a prior that is flat over what is usual
 *  for nineteen printers of twenty and says next to nothing of the twentieth. A coupon holds some twenty degrees of
 *  freedom, so that its own estimate strays by a sixth either way: one of 0.05 is more often a printer of 0.04 that was
 *  unlucky. A scatter far outside is believed all the same when enough sizes show it.
 *
 *  `value`: root of the mean variance, mm. `dof`: of the Student law whose variance is as uncertain; the variance of an
 *  inverse chi-square of n degrees of freedom has the relative variance 2 / (n - 4). */
export function believedScatter({ value, dof }: { readonly value: number; readonly dof: number }): {
  readonly value: number;
  readonly dof: number;
} {
  // Nothing that is usual has a say in what no printer does; whoever reads the profile refuses it.
  if (value > GRID.to / 2) return { value, dof };
  // What the coupon alone says: the estimate without the prior it was steadied by.
  const own = Math.max(0, dof - PRIOR_SCATTER.dof);
  const steadied = dof * value ** 2 - PRIOR_SCATTER.dof * PRIOR_SCATTER.variance;
  // Readings have doubts of their own, so that less than all of the prior may be in there.
  const squares = Math.max(own * (LEAST * value) ** 2, steadied);
  const width = Math.log(GRID.to / GRID.from);
  const cells = Array.from({ length: GRID.cells + 1 }, (_, k) => {
    const s = GRID.from * Math.exp((k * width) / GRID.cells);
    const inside = s >= USUAL.from && s <= USUAL.to ? (1 - USUAL.others) / (USUAL.to - USUAL.from) : 0;
    const prior = inside + USUAL.others / (s * width);
    // A cell is as wide as s is large.
    return { variance: s * s, log: Math.log(s * prior) - own * Math.log(s) - squares / (2 * s * s) };
  });
  const peak = Math.max(...cells.map(({ log }) => log));
  let [weight, first, second] = [0, 0, 0];
  for (const { variance, log } of cells) {
    const part = Math.exp(log - peak);
    weight += part;
    first += part * variance;
    second += part * variance ** 2;
  }
  const mean = first / weight;
  const relative = second / weight / mean ** 2 - 1;
  return { value: Math.sqrt(mean), dof: Math.min(1e6, 4 + 2 / relative) };
}
