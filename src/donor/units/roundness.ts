import { MILLIMETRES_PER_INCH } from '../../units/index.ts';

/** Steps in which makers choose sizes. */
export type System = 'metric' | 'inch';

/** A step and how large a share of typed sizes are multiples of it, coarser steps counted before. */
interface Step {
  readonly mm: number;
  readonly share: number;
}

const IN = MILLIMETRES_PER_INCH;

/** Ways of drawing: coarse sizes, or fine ones. Common practice, no source: whole and half millimetres, or tenths and hundredths; fractions of
 *  an inch, or tenths to thousandths. */
const STYLES: Readonly<
  Record<System, readonly { readonly share: number; readonly steps: readonly Step[] }[]>
> = {
  metric: [
    { share: 0.65, steps: combs([10, 0.1], [5, 0.12], [1, 0.32], [0.5, 0.18], [0.25, 0.04], [0.1, 0.08]) },
    { share: 0.35, steps: combs([5, 0.05], [1, 0.15], [0.5, 0.12], [0.1, 0.3], [0.05, 0.1], [0.01, 0.15]) },
  ],
  inch: [
    { share: 0.6, steps: combs([IN, 0.1], [IN / 4, 0.2], [IN / 16, 0.3], [IN / 64, 0.15], [IN / 100, 0.1]) },
    {
      share: 0.4,
      steps: combs([IN / 4, 0.1], [IN / 10, 0.15], [IN / 20, 0.1], [IN / 100, 0.2], [IN / 1000, 0.3]),
    },
  ],
};
/** The largest step that is still called round to people. */
const CALLED_ROUND: Readonly<Record<System, readonly number[]>> = {
  metric: [0.5],
  inch: [MILLIMETRES_PER_INCH / 64, MILLIMETRES_PER_INCH / 20],
};

/** Logarithm of how much likelier some sizes are when they were typed in a system than when they could be anything. Each way of drawing mixes
 *  combs of its steps with an even spread. `off`: by how much a size may be off, mm; `weight`: what each size counts for, as sizes hang
 *  together. A step that the tolerance fills counts for nothing. */
export function logLikelihood(sizes: readonly number[], system: System, off: number, weight: number): number {
  const logs = STYLES[system].map(
    ({ share, steps }) =>
      Math.log(share) + weight * sizes.reduce((sum, mm) => sum + Math.log(mixed(mm, steps, off)), 0),
  );
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

function mixed(mm: number, steps: readonly Step[], off: number): number {
  let [sum, rest] = [0, 1];
  for (const { mm: step, share } of steps) {
    rest -= share;
    // Where the tolerance fills the gaps a comb is an even spread.
    const teeth = Math.min(1, (2 * off) / step);
    if (teeth === 1) sum += share;
    else if (isMultiple(mm, step, off)) sum += share / teeth;
  }
  return sum + rest;
}

/** Whether a size would be called round: half millimetres; sixty-fourths or twentieths of an inch. */
export const isRound = (mm: number, system: System, off: number): boolean =>
  CALLED_ROUND[system].some((step) => isMultiple(mm, step, off));

const isMultiple = (mm: number, step: number, off: number): boolean => {
  const count = Math.round(mm / step);
  return count > 0 && Math.abs(mm - count * step) <= off;
};

function combs(...steps: readonly (readonly [number, number])[]): Step[] {
  return steps.map(([mm, share]) => ({ mm, share }));
}
