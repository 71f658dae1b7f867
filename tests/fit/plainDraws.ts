import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { FitProblem } from '../../src/fit/types.ts';

/** Chances by plain seeded Monte Carlo: every error drawn from its own distribution, every clearance added up, every
 *  window looked at (JCGM 101:2008, clause 7). Nothing is shared with the code under test: normal draws by the polar
 *  method of Marsaglia, Student draws as normal over the root of a sum of squares over dof, so dof is whole here. */
export function plainDraws(problem: FitProblem, draws: number, seed: number) {
  const generator = xoroshiro128plus(seed);
  const uniform = () => uniformFloat64(generator);
  let spare: number | undefined;
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const s = x * x + y * y;
      if (s === 0 || s >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(s)) / s);
      spare = y * factor;
      return x * factor;
    }
  };
  const student = (dof: number): number => {
    const top = normal();
    let sum = 0;
    for (let i = 0; i < dof; i++) sum += normal() ** 2;
    return top / Math.sqrt(sum / dof);
  };
  const { lines, contributors } = problem;
  const matrix = lines.map((line) => contributors.map(({ id }) => line.sensitivity[id] ?? 0));
  const held = lines.map(() => 0);
  const errors = contributors.map(() => 0);
  let all = 0;
  for (let draw = 0; draw < draws; draw++) {
    for (const [k, { u, distribution, dof }] of contributors.entries())
      errors[k] =
        distribution === 'normal'
          ? u * normal()
          : distribution === 'rectangular'
            ? u * Math.sqrt(3) * (2 * uniform() - 1)
            : u * student(dof);
    let every = true;
    for (const [j, { mean, spread, spreadDof: dof, window }] of lines.entries()) {
      const own = dof === undefined ? normal() : student(dof) * Math.sqrt((dof - 2) / dof);
      let clearance = mean + spread * own;
      for (const [k, error] of errors.entries()) clearance += matrix[j]![k]! * error;
      if (clearance >= window.lo && clearance <= window.hi) held[j]!++;
      else every = false;
    }
    if (every) all++;
  }
  return {
    part: all / draws,
    lines: Object.fromEntries(lines.map(({ id }, j) => [id, held[j]! / draws])) as Record<string, number>,
  };
}

/** A stream of numbers from 0 to 1 for making problems, apart from the one that draws errors. */
export function dice(seed: number) {
  const generator = xoroshiro128plus(seed);
  const from = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  return { from, pick: <T>(list: readonly T[]): T => list[Math.floor(from(0, list.length))]! };
}
