import type { Contributor } from '../measure/types.ts';
import { windowOf } from './classes.ts';
import { FitRefusal } from './fitRefusal.ts';
import { LATTICE_POINTS, latticeErrors, latticeVector } from './lattice.ts';
import { type Law, lawOf, ownLaw, passesForNormal, varianceOf } from './law.ts';
import { partShares, varianceShares } from './shares.ts';
import { sumLaw } from './sumLaw.ts';
import type { FitChance, FitLine, FitProblem, Share } from './types.ts';

/** Chance that each clearance, and all of them together, come out inside their windows the first time.
 *
 *  A line alone: the distribution of its clearance is the sum of its causes (`sumLaw`), to about 0.02 percentage point.
 *  Lines together: causes that disturb one line only stay in that line's own distribution F; for given errors X of the
 *  shared causes the lines are independent, so that
 *  chance = E_X[ product over lines of F(hi - m(X)) - F(lo - m(X)) ], m(X) = mean + sum of a X.
 *  The expectation is taken over a fixed lattice of 8192 points: the same answer each time, and neighbouring problems
 *  have the same error, so that their difference can be trusted further than either.
 *
 *  What is promised: 0.1 percentage point for fits as they come (3 to 6 lines, causes as a printer and callipers
 *  have them). Not promised: ten and more rectangular or Student causes of like weight shared by 6 lines whose own spread
 *  is next to nothing; there 0.3 has been seen. Beyond 24 shared causes the least telling count as normal.
 *  Throws `FitRefusal` for a problem that cannot be reckoned.
 *  @example one line, mean 0.2, window 0.1 to 0.3, spread 0.05, no contributors // => part: 0.9545 */
export function fitChance(problem: FitProblem): FitChance {
  check(problem);
  const { contributors } = problem;
  const lines: Record<string, number> = {};
  const shares: Record<string, readonly Share[]> = {};
  for (const line of problem.lines) {
    const own = ownLaw(line);
    const causes = contributors.map((contributor) =>
      lawOf(contributor, line.sensitivity[contributor.id] ?? 0),
    );
    lines[line.id] = sumLaw([own, ...causes]).within(line.window.lo - line.mean, line.window.hi - line.mean);
    shares[line.id] = varianceShares(line, contributors);
  }
  return { lines, part: together(problem, lines), shares, partShares: partShares(shares, lines) };
}

/** Chance that all lines hold. `alone` is the chance of each line by itself. */
function together(problem: FitProblem, alone: Readonly<Record<string, number>>): number {
  const { lines, contributors } = problem;
  const shared = contributors.filter(
    ({ id, u }) => u > 0 && lines.filter((line) => (line.sensitivity[id] ?? 0) !== 0).length > 1,
  );
  const tied = lines.filter((line) => shared.some(({ id }) => (line.sensitivity[id] ?? 0) !== 0));
  // Lines that share nothing are independent of all others.
  const rest = lines.reduce(
    (product, line) => (tied.includes(line) ? product : product * alone[line.id]!),
    1,
  );
  if (tied.length === 0 || rest === 0) return rest;

  const causes = sharedCauses(tied, shared);
  const chance = new Float64Array(LATTICE_POINTS).fill(1);
  for (const [j, line] of tied.entries()) {
    const means = new Float64Array(LATTICE_POINTS).fill(line.mean);
    for (const [d, { errors, effects }] of causes.entries()) {
      const effect = effects[j]!;
      const z = latticeVector[d]!;
      if (effect === 0) continue;
      for (let i = 0; i < LATTICE_POINTS; i++) means[i]! += effect * errors[(i * z) & (LATTICE_POINTS - 1)]!;
    }
    const own = ownLaw(line);
    const private_ = contributors.filter((contributor) => !shared.includes(contributor));
    const distribution = sumLaw([own, ...private_.map((c) => lawOf(c, line.sensitivity[c.id] ?? 0))]);
    const { lo, hi } = line.window;
    for (let i = 0; i < LATTICE_POINTS; i++) {
      const m = means[i]!;
      if (chance[i]! > 0) chance[i]! *= distribution.within(lo - m, hi - m);
    }
  }
  let mean = 0;
  for (const value of chance) mean += value / LATTICE_POINTS;
  // No lattice may break what holds for any events: not likelier than the least likely, nor than Bonferroni allows.
  const each = tied.map((line) => alone[line.id]!);
  const most = Math.min(...each);
  const least = Math.max(0, 1 - each.reduce((sum, p) => sum + (1 - p), 0));
  return rest * Math.min(most, Math.max(least, mean));
}

/** One dimension of the lattice: a standard error, and what it does to each line, mm. */
interface SharedCause {
  readonly errors: Float64Array;
  readonly effects: readonly number[];
}

/** Shared contributors as dimensions of the lattice, most telling first. Those that pass for normal are gathered: with
 *  n lines, n independent normal errors reproduce their joint covariance, however many they are. */
function sharedCauses(lines: readonly FitLine[], shared: readonly Contributor[]): SharedCause[] {
  const variances = lines.map((line) =>
    shared.reduce((sum, c) => sum + varianceOf(lawOf(c, line.sensitivity[c.id] ?? 0)), line.spread ** 2),
  );
  const shareIn = (law: Law, j: number) => varianceOf(law) / variances[j]!;
  const candidates = shared
    .map((contributor) => {
      const laws = lines.map((line) => lawOf(contributor, line.sensitivity[contributor.id] ?? 0));
      return {
        laws,
        effects: laws.map(({ u }, j) => Math.sign(lines[j]!.sensitivity[contributor.id] ?? 0) * u),
        weight: laws.reduce((sum, law, j) => sum + shareIn(law, j), 0),
        normal: laws.every((law, j) => passesForNormal(law, shareIn(law, j))),
      };
    })
    .sort((a, b) => b.weight - a.weight);

  const room = latticeVector.length - lines.length;
  const shaped = candidates.filter(({ normal }) => !normal).slice(0, room);
  const normal = candidates.filter((candidate) => !shaped.includes(candidate));
  const covariance = lines.map((_, j) =>
    lines.map((_, k) =>
      normal.reduce((sum, { effects, laws }) => {
        const widening = varianceOf({ ...laws[j]!, u: 1 });
        return sum + effects[j]! * effects[k]! * widening;
      }, 0),
    ),
  );
  const gathered = pivotedCholesky(covariance).map((effects) => ({
    errors: latticeErrors('normal', Infinity),
    effects,
    weight: effects.reduce((sum, effect, j) => sum + effect ** 2 / variances[j]!, 0),
  }));
  const kept = shaped.map(({ laws, effects, weight }) => ({
    errors: latticeErrors(laws[0]!.kind, laws[0]!.dof),
    effects,
    weight,
  }));
  return [...gathered, ...kept].sort((a, b) => b.weight - a.weight);
}

/** Columns l with sum of l l^T = covariance, largest remaining variance first, none for what is left of rounding.
 *  (Golub and Van Loan, Matrix Computations, 4.2.8, from memory.) */
function pivotedCholesky(covariance: readonly (readonly number[])[]): number[][] {
  const left = covariance.map((row) => [...row]);
  const n = left.length;
  const scale = Math.max(0, ...left.map((row, j) => row[j]!));
  const columns: number[][] = [];
  while (columns.length < n) {
    let pivot = 0;
    for (let j = 1; j < n; j++) if (left[j]![j]! > left[pivot]![pivot]!) pivot = j;
    const variance = left[pivot]![pivot]!;
    if (!(variance > 1e-12 * scale)) break;
    const column = left.map((row) => row[pivot]! / Math.sqrt(variance));
    for (let j = 0; j < n; j++) for (let k = 0; k < n; k++) left[j]![k]! -= column[j]! * column[k]!;
    columns.push(column);
  }
  return columns;
}

/** Throws `FitRefusal` unless the problem can be reckoned. */
function check({ lines, contributors }: FitProblem): void {
  if (lines.length === 0) throw new FitRefusal('no_lines', 'fit', 'at least 1 line', '0');
  // So that their gathered normal causes find room in the lattice.
  if (lines.length > latticeVector.length)
    throw new FitRefusal('too_many_lines', 'fit', `at most ${latticeVector.length} lines`, `${lines.length}`);
  const known = new Set<string>();
  for (const { id, u, distribution, dof } of contributors) {
    if (known.has(id))
      throw new FitRefusal('contributor_repeated', `contributor ${id}`, 'a single entry', 'two');
    known.add(id);
    if (!(u >= 0 && u < Infinity))
      throw new FitRefusal(
        'contributor_out_of_range',
        `contributor ${id}`,
        'a finite u of 0 or above',
        `${u}`,
      );
    if (distribution === 'student' && !(dof >= 1))
      throw new FitRefusal(
        'contributor_out_of_range',
        `contributor ${id}`,
        'at least 1 degree of freedom',
        `${dof}`,
      );
  }
  const seen = new Set<string>();
  for (const line of lines) {
    const subject = `line ${line.id}`;
    if (seen.has(line.id)) throw new FitRefusal('line_repeated', subject, 'a single entry', 'two');
    seen.add(line.id);
    windowOf(line.window);
    if (!Number.isFinite(line.mean))
      throw new FitRefusal('line_mean_not_finite', subject, 'a finite mean clearance', `${line.mean} mm`);
    if (!((line.spreadDof ?? Infinity) > 2))
      throw new FitRefusal(
        'line_spread_not_positive',
        subject,
        'a spread of above 2 degrees of freedom',
        `${line.spreadDof}`,
      );
    if (!(line.spread > 0 && line.spread < Infinity))
      throw new FitRefusal(
        'line_spread_not_positive',
        subject,
        'a finite spread above 0 mm',
        `${line.spread} mm`,
      );
    for (const [id, sensitivity] of Object.entries(line.sensitivity)) {
      if (!known.has(id))
        throw new FitRefusal('contributor_unknown', subject, 'every contributor it names to be listed', id);
      if (!Number.isFinite(sensitivity))
        throw new FitRefusal(
          'contributor_out_of_range',
          `${subject}, ${id}`,
          'a finite sensitivity',
          `${sensitivity}`,
        );
    }
  }
}
