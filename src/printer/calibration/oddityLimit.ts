import studentQuantile from '@stdlib/stats-base-dists-t-quantile';

/** How seldom an honest coupon may be said to hold a doubtful reading. Common practice, no source. */
const SIGNIFICANCE = 0.05;

/** Standard deviations beyond which one of `count` observations does not fit the others: Student's quantile, two-sided,
 *  at 5 % shared among all of them (Bonferroni). R. D. Cook and S. Weisberg, Residuals and Influence in Regression
 *  (1982), 2.2.2, outlier test (from memory). `dof` 1 or above, `count` 1 or above.
 *  @example oddityLimit(30, 20) // => 3.29... */
export function oddityLimit(dof: number, count: number): number {
  return studentQuantile(1 - SIGNIFICANCE / 2 / count, dof);
}
