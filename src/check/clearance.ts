import { windowOf } from '../fit/classes.ts';
import { place, turn } from '../solid/placement.ts';
import { formatLength, formatNumber } from '../units/index.ts';
import type { Check, CheckContext, PlannedInterface } from './context.ts';
import type { Finding, Verdict } from './finding.ts';

/** Chance from which a fit is as good as sure. Common practice, no source. */
const SURE = 0.9;
/** A window's end is met by a clearance this close to it, mm: rounding of the inverse of the printer's behaviour. */
const ROUNDING = 1e-6;

/** Clearance: whether each meeting of part and machine comes out as loose as it should, mm. Negative is
 *  interference. `fails` when the expected print lies outside its window; `caution` when it lies inside, but reading
 *  and printer leave a chance below 90 %; the limit is the nearer end of the window. */
export const clearance: Check = (context) =>
  context.interfaces.map((planned) => fitFinding(planned, context));

function fitFinding(planned: PlannedInterface, context: CheckContext): Finding {
  const { id, name, host, drawn, predicted, window, u, chance } = planned;
  const value = planned.clearance;
  const [fromLow, toHigh] = [value - window.lo, window.hi - value];
  const margin = Math.min(fromLow, toHigh);
  const verdict: Verdict = margin < -ROUNDING ? 'fails' : chance >= SURE ? 'holds' : 'caution';
  return {
    id: `clearance.${id}`,
    title: name,
    verdict,
    value,
    limit: fromLow <= toHigh ? window.lo : window.hi,
    unit: 'mm',
    margin,
    because:
      `drawn ${formatLength(drawn)}, prints at ${formatLength(predicted, u)} on a machine of ${formatLength(host, u)}: ` +
      `clearance ${formatLength(value, u)}, ${windowWords(window)}; chance ${Math.round(100 * chance)} %`,
    source: sourceOf(planned),
    remedy: remedyFor(planned, verdict, context),
    at: place(context.onBed, planned.at),
    details: {
      'drawn, mm': drawn,
      'printed, mm': predicted,
      'machine, mm': host,
      'standard uncertainty, mm': u,
      chance,
    },
  };
}

/** Whose window it is: that of the class, unless the job asked for another. */
function sourceOf({ fit, window }: PlannedInterface): string {
  const usual = windowOf(fit);
  const asked = usual.lo !== window.lo || usual.hi !== window.hi;
  if (asked) return 'window asked for by the job';
  return typeof fit === 'string' ? `${fit} fit: common practice, no source` : 'window stated for this fit';
}

function windowWords({ lo, hi }: PlannedInterface['window']): string {
  if (hi === Number.POSITIVE_INFINITY) return `at least ${formatLength(lo)} wanted`;
  if (lo === Number.NEGATIVE_INFINITY) return `at most ${formatLength(hi)} wanted`;
  return `${formatNumber(lo)} to ${formatLength(hi)} wanted`;
}

function remedyFor(planned: PlannedInterface, verdict: Verdict, { onBed, printer }: CheckContext): string {
  const { name, clearance: value, window, across, u } = planned;
  switch (verdict) {
    case 'holds':
      return '';
    case 'fails': {
      const tight = value < window.lo;
      const by = formatLength(tight ? window.lo - value : value - window.hi);
      const first = `${by} too ${tight ? 'tight' : 'loose'}`;
      return Math.abs(turn(onBed, across)[2]) >= Math.SQRT1_2
        ? `${first}, because heights come in whole layers: print thinner layers, or lay the part so that this size lies flat`
        : `${first}: give ${name} a fit whose window takes it in, or check the readings behind it`;
    }
    case 'caution':
      return printer.calibrated === null
        ? `print and measure the coupon: nobody has measured what ${printer.name} makes of a size`
        : `read this place three more times, and print the coupon again: the clearance is known to ${formatLength(u)} only`;
  }
}
