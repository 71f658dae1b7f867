/** Repeatability that filament printers have, mm, and the share of printers that have some other. Common practice, no
 *  source. */
const USUAL = { from: 0.015, to: 0.04, others: 0.05 } as const;

/** Standard deviations looked at, mm, evenly in the logarithm. */
const GRID = { from: 0.003, to: 0.3, cells: 240 } as const;

/** What to believe of the scatter of prints once the coupon has spoken: Bayes, with a prior that is flat over what is usual
 *  for nineteen printers of twenty and says next to nothing of the twentieth. A coupon holds some twenty degrees of
 *  freedom, so that its own estimate strays by a sixth either way: one of 0.05 is more often a printer of 0.04 that was
 *  unlucky. A scatter far outside is believed all the same when enough sizes show it.
 *
 *  `evidence` is the log likelihood of a scatter, mm, but for a constant; `estimate` what the fit itself found, mm.
 *  `value`: root of the mean variance, mm. `dof`: of the Student law whose variance is as uncertain; the variance of an
 *  inverse chi-square of n degrees of freedom has the relative variance 2 / (n - 4). */
export function believedScatter(
  evidence: (scatter: number) => number,
  estimate: { readonly value: number; readonly dof: number },
): { readonly value: number; readonly dof: number } {
  // Nothing that is usual has a say in what no printer does; whoever reads the profile refuses it.
  if (estimate.value > GRID.to / 2) return estimate;
  const width = Math.log(GRID.to / GRID.from);
  const cells = Array.from({ length: GRID.cells + 1 }, (_, k) => {
    const s = GRID.from * Math.exp((k * width) / GRID.cells);
    const inside = s >= USUAL.from && s <= USUAL.to ? (1 - USUAL.others) / (USUAL.to - USUAL.from) : 0;
    const prior = inside + USUAL.others / (s * width);
    // A cell is as wide as s is large.
    return { variance: s * s, log: Math.log(s * prior) + evidence(s) };
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
