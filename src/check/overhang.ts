import { formatLength, formatNumber } from '../units/index.ts';
import type { Check } from './context.ts';
import { type Overhang, unsupportedOf } from './unsupported.ts';

/** One strand may hang beside the last one that lies half on the layer below: it still has a neighbour to stick to.
 *  That is a reach of one and a half line widths. Common practice, no source. */
const HANGING = 1.5;

/** Overhang: how far a layer reaches past the one below without being a bridge, held against what the printer's
 *  overhang angle allows for one layer. Value and limit in mm. `caution` up to one and a half line widths, beyond
 *  that strands are laid into the air and it `fails`. */
export const overhang: Check = (context) => {
  const { printer } = context;
  const { overhangs, clean } = unsupportedOf(context);
  const worst = overhangs.reduce<Overhang | null>(
    (a, b) => (a === null || b.reach / b.allowed > a.reach / a.allowed ? b : a),
    null,
  );
  const source = `printer profile ${printer.name}; common practice, no source`;
  const angle = `${formatNumber(printer.overhang, 10)} deg from the vertical`;
  const shown = worst ?? clean;
  if (shown === null) {
    return [
      {
        ...{ id: 'overhang', title: 'overhang', verdict: 'holds', unit: 'mm' },
        ...{ value: 0, limit: null, margin: null, at: null, source, remedy: '' },
        because: 'no layer reaches past the one below',
      },
    ];
  }
  const { reach, allowed, adrift, at } = shown;
  const rise = allowed / Math.tan((printer.overhang * Math.PI) / 180);
  const verdict =
    worst === null ? 'holds' : adrift || reach > HANGING * printer.lineWidth ? 'fails' : 'caution';
  const where = `${formatLength(at[2])} above the bed`;
  return [
    {
      ...{ id: 'overhang', title: 'overhang', verdict, value: reach, limit: allowed, unit: 'mm' },
      ...{ margin: allowed - reach, at, source },
      because: adrift
        ? `a piece ${where} starts in the air, with nothing below it or beside it`
        : `the layer ${where} reaches ${formatLength(reach)} past what carries it; ${formatLength(allowed)} a layer prints clean (${angle})`,
      remedy:
        verdict === 'holds'
          ? ''
          : 'lay the part another way, chamfer the underside, or print it with support there',
      details: {
        'steepness, deg from the vertical': (Math.atan2(reach, rise) * 180) / Math.PI,
        'places beyond the limit': overhangs.length,
      },
    },
  ];
};
