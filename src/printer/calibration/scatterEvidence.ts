import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Known } from '../types.ts';
import { type Observation, sharedCauses } from './observation.ts';

/** How likely observations are, were the printer's scatter s: log of their density with everything else integrated out,
 *  but for a constant. Parameters count with their priors and what the callipers did to all features alike with its own
 *  doubt, all as normal, so that y is normal with the covariance V = D(s) + X X', D = s^2 + own variance. By the
 *  determinant lemma and Woodbury's formula (Golub and Van Loan, Matrix Computations, 2.1.4, from memory) only a
 *  matrix as large as there are parameters and causes is taken apart. */
export function scatterEvidence(
  observations: readonly Observation[],
  prior: readonly Known[],
): (scatter: number) => number {
  const causes = sharedCauses(observations);
  const design = observations.map(({ row }, i) => [
    ...row.map((x, k) => x * prior[k]!.u),
    ...causes.map(({ effects }) => effects[i]!),
  ]);
  const count = prior.length + causes.length;
  return (scatter) => {
    const matrix = Matrix.eye(count);
    const right = Matrix.zeros(count, 1);
    let log = 0;
    for (const [i, { variance, excess }] of observations.entries()) {
      const own = scatter ** 2 + variance;
      const row = design[i]!;
      log -= (Math.log(own) + excess ** 2 / own) / 2;
      for (let k = 0; k < count; k++) {
        if (row[k] === 0) continue;
        right.set(k, 0, right.get(k, 0) + (row[k]! * excess) / own);
        for (let l = 0; l < count; l++) matrix.set(k, l, matrix.get(k, l) + (row[k]! * row[l]!) / own);
      }
    }
    const factored = new CholeskyDecomposition(matrix);
    const solved = factored.solve(right);
    log += right.transpose().mmul(solved).get(0, 0) / 2;
    return log - factored.lowerTriangularMatrix.diagonal().reduce((sum, x) => sum + Math.log(x), 0);
  };
}
