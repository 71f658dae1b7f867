import { inverse, Matrix, QrDecomposition } from 'ml-matrix';

/** The straight answer to more observations than unknowns, and how well it is known. */
export interface LeastSquares {
  readonly coefficients: readonly number[];
  /** (X' W X)^-1. The covariance of the coefficients where the weights are one over the variances; otherwise times
   *  `residualDeviation` squared. */
  readonly cofactor: readonly (readonly number[])[];
  /** Standard deviation of each coefficient, from the residuals; NaN without a degree of freedom. */
  readonly deviations: readonly number[];
  /** Observed minus fitted, not weighted. */
  readonly residuals: readonly number[];
  /** sqrt(sum w r^2 / dof); NaN without a degree of freedom. */
  readonly residualDeviation: number;
  /** Observations less coefficients. */
  readonly dof: number;
  /** Diagonal of the hat matrix: share of each observation in its own fitted value, 0 to 1. */
  readonly hat: readonly number[];
}

/** Rounds of iterative refinement: the second changes nothing any more on the data sets of NIST. */
const REFINEMENTS = 2;

/** Weighted linear least squares, min sum w (y - X b)^2. `design` holds one row an observation, `weights` one number of 0
 *  or above an observation (absent: all 1). By Householder QR of the weighted matrix with columns brought to one
 *  length, and iterative refinement: the condition of X enters once, where the normal equations square it, and columns
 *  of unlike size (a scale beside a curvature) cost nothing. Sources: Golub, Van Loan, Matrix Computations, 5.3;
 *  Bjorck, Numerical Methods for Least Squares Problems, 2.9 (from memory of both). NIST data sets hold it to 9
 *  digits and more (tests/outside/linearRegression.test.ts).
 *  Throws a RangeError for rows of unlike length, for numbers that are not finite, for a weight below 0, with fewer
 *  observations than coefficients, and for columns that depend on one another.
 *  @example leastSquares([[1, 0], [1, 1], [1, 2]], [1, 3, 5]).coefficients // => [1, 2] */
export function leastSquares(
  design: readonly (readonly number[])[],
  observations: readonly number[],
  weights: readonly number[] = observations.map(() => 1),
): LeastSquares {
  check(design, observations, weights);
  const count = design[0]!.length;
  const roots = weights.map(Math.sqrt);
  const lengths = Array.from(
    { length: count },
    (_, k) => Math.hypot(...design.map((row, i) => row[k]! * roots[i]!)) || 1,
  );
  const scaled = new Matrix(design.map((row, i) => row.map((x, k) => (x * roots[i]!) / lengths[k]!)));
  const qr = new QrDecomposition(scaled);
  const triangle = qr.upperTriangularMatrix;
  if (!wellConditioned(triangle)) {
    throw new RangeError('least squares requires columns that do not depend on one another');
  }

  const solve = (values: readonly number[]): number[] =>
    qr.solve(Matrix.columnVector(values.map((value, i) => value * roots[i]!))).getColumn(0);
  const residualsOf = (scaledCoefficients: readonly number[]): number[] =>
    observations.map(
      (y, i) => y - design[i]!.reduce((sum, x, k) => sum + (x * scaledCoefficients[k]!) / lengths[k]!, 0),
    );
  let found = solve(observations);
  for (let k = 0; k < REFINEMENTS; k++) {
    const correction = solve(residualsOf(found));
    found = found.map((b, j) => b + correction[j]!);
  }

  const residuals = residualsOf(found);
  const root = inverse(triangle);
  const cofactor = root
    .mmul(root.transpose())
    .to2DArray()
    .map((row, i) => row.map((value, j) => value / lengths[i]! / lengths[j]!));
  const dof = observations.length - count;
  const squares = residuals.reduce((sum, r, i) => sum + weights[i]! * r * r, 0);
  const residualDeviation = dof > 0 ? Math.sqrt(squares / dof) : Number.NaN;
  return {
    coefficients: found.map((b, k) => b / lengths[k]!),
    cofactor,
    deviations: cofactor.map((row, k) => residualDeviation * Math.sqrt(row[k]!)),
    residuals,
    residualDeviation,
    dof,
    hat: qr.orthogonalMatrix.to2DArray().map((row) => row.reduce((sum, q) => sum + q * q, 0)),
  };
}

/** Whether no column is a sum of others, to rounding: the columns have length 1, so the diagonal says how much of each
 *  is its own. */
const wellConditioned = (triangle: Matrix): boolean =>
  triangle.diagonal().every((own) => Math.abs(own) > 1e-13);

function check(
  design: readonly (readonly number[])[],
  observations: readonly number[],
  weights: readonly number[],
): void {
  const count = design[0]?.length ?? 0;
  if (design.length !== observations.length || weights.length !== observations.length) {
    throw new RangeError(
      `least squares requires as many rows and weights as observations (given ${design.length}, ${weights.length} and ${observations.length})`,
    );
  }
  if (count === 0 || design.length < count) {
    throw new RangeError(
      `least squares requires at least 1 coefficient and as many observations (given ${count} and ${design.length})`,
    );
  }
  if (design.some((row) => row.length !== count)) {
    throw new RangeError('least squares requires rows of one length');
  }
  if (![...design.flat(), ...observations, ...weights].every(Number.isFinite)) {
    throw new RangeError('least squares requires finite numbers');
  }
  const below = weights.find((weight) => weight < 0);
  if (below !== undefined)
    throw new RangeError(`least squares requires weights of 0 or above (given ${below})`);
}
