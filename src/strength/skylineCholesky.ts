/** A symmetric matrix kept by its skyline: row i holds columns `first[i]` to i, one row after another.
 *  Entry (i, j), first[i] <= j <= i, is at `at[i] + j`. */
export interface Skyline {
  readonly first: Int32Array;
  readonly at: Int32Array;
  readonly values: Float64Array;
}

/** An empty skyline matrix for the given first columns. */
export function skyline(first: Int32Array): Skyline {
  const at = new Int32Array(first.length);
  let stored = 0;
  for (let i = 0; i < first.length; i++) {
    at[i] = stored - first[i]!;
    stored += i - first[i]! + 1;
  }
  return { first, at, values: new Float64Array(stored) };
}

/** Cholesky factor L of a symmetric positive definite skyline matrix, in its place; the skyline does not fill beyond
 *  itself. False when the matrix is not positive definite (a body that is not held).
 *  Costs the sum of the squares of the row lengths; nothing is allocated. */
export function factorise({ first, at, values }: Skyline): boolean {
  for (let i = 0; i < first.length; i++) {
    const row = at[i]!;
    const from = first[i]!;
    const own = values[row + i]!;
    for (let j = from; j < i; j++) {
      const other = at[j]!;
      let s = values[row + j]!;
      for (let k = Math.max(from, first[j]!); k < j; k++) s -= values[row + k]! * values[other + k]!;
      values[row + j] = s / values[other + j]!;
    }
    let pivot = own;
    for (let k = from; k < i; k++) pivot -= values[row + k]! ** 2;
    // A mode without stiffness leaves a pivot of rounding size.
    if (!(pivot > 1e-12 * own)) return false;
    values[row + i] = Math.sqrt(pivot);
  }
  return true;
}

/** Solves L L' x = b in place of `b`, after `factorise`. */
export function solveFactorised({ first, at, values }: Skyline, b: Float64Array): void {
  for (let i = 0; i < first.length; i++) {
    const row = at[i]!;
    let s = b[i]!;
    for (let k = first[i]!; k < i; k++) s -= values[row + k]! * b[k]!;
    b[i] = s / values[row + i]!;
  }
  for (let i = first.length - 1; i >= 0; i--) {
    const row = at[i]!;
    const x = b[i]! / values[row + i]!;
    b[i] = x;
    for (let k = first[i]!; k < i; k++) b[k] = b[k]! - x * values[row + k]!;
  }
}
