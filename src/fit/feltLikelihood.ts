import { ONE_SIDED_AIM } from './classes.ts';
import { cdf, density, logBetween, logCdf } from './feltNormal.ts';
import { type FeltRecord, type FeltVerdict, steppedOf } from './feltRecord.ts';

/** A verdict as a function of the shift, and how finely that function has to be looked at. */
export interface FeltLikelihood {
  /** Logarithm of the chance of the verdict, were all clearances `shift` mm larger than expected. */
  readonly at: (shift: number) => number;
  /** Shortest distance over which it changes, mm. */
  readonly grain: number;
  /** Furthest from 0 at which it may have its peak, mm. */
  readonly reach: number;
}

/** Hardly two people choose the same "best" from clearances this close, mm. */
const LEAST_JUDGEMENT = 0.02;

/** Standard uncertainty of one person's idea of the best clearance, mm: a sixth of the window, half a step of the usual
 *  ladder, and never below 0.02. An assumption of this project, no source. It is not added to verdicts of tight, right
 *  and loose: there the ends of what this person calls right are what is asked for. */
export function judgementOf({ window }: FeltRecord, stepped: readonly string[]): number {
  const widths = stepped.map((id) => {
    const [lo, hi] = window[id]!;
    return lo === null || hi === null ? 2 * ONE_SIDED_AIM : hi - lo;
  });
  return Math.max(LEAST_JUDGEMENT, Math.min(...widths) / 6);
}

/** How likely a verdict is, by the shift that all clearances of the ladder have in common.
 *
 *  Each size of each rung has its clearance expected + shift + spread times a normal error of its own. Right: every
 *  size inside its window. Tight: some size below. Loose: some size above.
 *  Best alone: of all rungs, that one lies nearest the aim, each by its mean distance over the sizes, blurred by the
 *  spread and the person's judgement. With lists a best rung counts as one that is right.
 *  A record without stepped sizes or without verdict says nothing: its likelihood is even. */
export function feltLikelihood(record: FeltRecord): FeltLikelihood {
  const { felt } = record;
  const stepped = steppedOf(record);
  if (felt === undefined || stepped.length === 0) return { at: () => 0, grain: Infinity, reach: 0 };
  const told = felt.tight.length + felt.right.length + felt.loose.length;
  return told === 0 && felt.best !== undefined
    ? ofBest(record, stepped, felt.best)
    : ofLists(record, stepped, felt);
}

function ofLists(record: FeltRecord, stepped: readonly string[], felt: FeltVerdict): FeltLikelihood {
  const { rungs, doubt, window } = record;
  const right = new Set([...felt.right, ...(felt.best === undefined ? [] : [felt.best])]);
  const ends = (number: number) =>
    stepped.map((id) => {
      const clearance = rungs[number - 1]!.clearance[id]!;
      const [lo, hi] = window[id]!;
      return { low: (lo ?? -Infinity) - clearance, high: (hi ?? Infinity) - clearance };
    });
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const verdicts = [
    ...felt.tight.map((k) => ({ said: 'tight', sizes: ends(k) }) as const),
    ...[...right].map((k) => ({ said: 'right', sizes: ends(k) }) as const),
    ...felt.loose.map((k) => ({ said: 'loose', sizes: ends(k) }) as const),
  ];
  const limits = verdicts.flatMap(({ sizes }) => sizes.flatMap(({ low, high }) => [low, high]));
  return {
    grain: doubt.spread,
    reach: Math.max(0, ...limits.filter(Number.isFinite).map(Math.abs)),
    at: (shift) =>
      sum(
        verdicts.map(({ said, sizes }) => {
          const z = sizes.map(({ low, high }) => ({
            low: (low - shift) / doubt.spread,
            high: (high - shift) / doubt.spread,
          }));
          if (said === 'right') return sum(z.map(({ low, high }) => logBetween(low, high)));
          return said === 'tight'
            ? someBelow(z.map(({ low }) => low))
            : someBelow(z.map(({ high }) => -high));
        }),
      ),
  };
}

/** Logarithm of the chance that of independent standard normal errors some falls below its limit. */
function someBelow(limits: readonly number[]): number {
  const chances = limits.map(logCdf);
  const most = Math.max(...chances);
  if (limits.length === 1 || most === -Infinity) return most;
  // So rare that no two do: one less the chance of none has no digits left of that.
  if (most < RARE) return most + Math.log(chances.reduce((sum, one) => sum + Math.exp(one - most), 0));
  return Math.log(-Math.expm1(limits.reduce((sum, limit) => sum + Math.min(0, logCdf(-limit)), 0)));
}

/** Logarithm of a chance beside whose square nothing of 16 digits is lost. */
const RARE = -20;

/** Steps of the integral over how near the best one lies, and how far it goes, in standard deviations. Midpoints of an
 *  even function as smooth as this are good to ten digits a quarter of a standard deviation apart. */
const STEPS = 64;
const REACH = 8;

function ofBest(record: FeltRecord, stepped: readonly string[], best: number): FeltLikelihood {
  const { rungs, doubt, aim } = record;
  const off = rungs.map(
    ({ clearance }) => stepped.reduce((sum, id) => sum + clearance[id]! - aim[id]!, 0) / stepped.length,
  );
  const sigma = Math.hypot(doubt.spread, judgementOf(record, stepped));
  const chosen = off[best - 1]!;
  const others = off.filter((_, k) => k !== best - 1);
  return {
    grain: sigma,
    reach: Math.max(...off.map(Math.abs)),
    at: (shift) => {
      // In standard deviations, and so that the peak of the integrand never underflows.
      const middle = (chosen + shift) / sigma;
      const away = Math.abs(middle);
      const [from, to] = [Math.max(0, away - REACH), away + REACH];
      const step = (to - from) / STEPS;
      let total = 0;
      for (let k = 0; k < STEPS; k++) {
        const near = from + (k + 0.5) * step;
        let all = density(near - middle) + density(-near - middle);
        for (const other of others) {
          const m = (other + shift) / sigma;
          all *= cdf(-near - m) + cdf(m - near);
          if (all === 0) break;
        }
        total += all * step;
      }
      // Chosen against all odds: as unlikely as another rung being 38 standard deviations nearer.
      return Math.log(Math.max(total, Number.MIN_VALUE));
    },
  };
}
