import { prism } from '../../solid/primitives.ts';
import { hydraulicDiameter, stadium } from '../../solid/profile.ts';
import { between } from '../callout.ts';
import type { Feature } from '../feature.ts';
import { bore, type Interface, slot, step } from '../interface.ts';
import type { Drawn } from '../values.ts';

/** A hollow along x in which a round bar of the machine lies, below z = 0. mm. */
export interface HollowForBar {
  /** Id of the fit of the bar; its run in a slot is `ID.run`. */
  readonly id: string;
  /** For tables: "bar". */
  readonly name: string;
  /** Diameter of the bar as measured. */
  readonly bar: number;
  /** How far the middle of the bar lies below z = 0 on the machine, with id and name of that size. */
  readonly drop: { readonly id: string; readonly name: string; readonly host: number };
  /** How far the bar slides along y in a slot, and the middle of its slide; null for a bore, in which it only turns. */
  readonly slide: { readonly range: number; readonly middle: number } | null;
  /** Extent along x of the plastic around it. */
  readonly deep: number;
  readonly drawn: Drawn;
}

export interface BarHollow extends Feature, Pick<HollowForBar, 'id' | 'bar' | 'deep'> {
  /** Height and length of the hollow, as drawn, mm; alike in a bore. */
  readonly width: number;
  readonly overall: number;
  /** Where its middle lies: along y, and below z = 0, as drawn, mm. */
  readonly middle: number;
  readonly drop: number;
  /** 4 A / P of its outline, mm. */
  readonly hydraulic: number;
}

/** Play of the bar at the two ends of its slide together, and how far from its height it may lie, mm. Common practice, no
 *  source. */
const RUN = { lo: 0.2, hi: 1 } as const;
const HEIGHT = { lo: -0.15, hi: 0.15 } as const;

/** A bore, or a slot along y, that carries a bar. Brings the cut, its fits, one hole through the part, and the callout
 *  `farSide`, from z = 0 to the far side of the bar. A mouth may open it: `snapMouth`.
 *  @example barHollow({ id: 'bar', name: 'bar', bar: 1.6, slide: null, deep: 4, drawn: {},
 *    drop: { id: 'drop', name: 'underside to bar', host: 5 } }).width // => 1.6 */
export function barHollow({ id, name, bar, drop, slide, deep, drawn }: HollowForBar): BarHollow {
  const width = drawn[id] ?? bar;
  const run = slide ? bar + slide.range : bar;
  const overall = slide ? Math.max(width, drawn[`${id}.run`] ?? run) : width;
  const middle = slide ? slide.middle : 0;
  const below = drawn[drop.id] ?? drop.host;
  const hydraulic = hydraulicDiameter(width, overall);
  const place = (): Pick<Interface, 'at' | 'axis' | 'length' | 'across'> => ({
    ...{ at: [0, middle, -below], axis: [1, 0, 0], length: deep, across: [0, 0, 1] },
  });
  const fits = [
    slide
      ? slot(id, { ...place(), name: `${name} in slot`, host: bar, fit: 'sliding', hydraulic })
      : bore(id, { ...place(), name: `${name} in bore`, host: bar, fit: 'sliding' }),
    step(drop.id, { ...place(), name: drop.name, host: drop.host, fit: HEIGHT, hollow: id }),
  ];
  if (slide)
    fits.push(
      slot(`${id}.run`, {
        ...{ ...place(), across: [0, 1, 0], name: `run of the ${name}`, host: run, fit: RUN },
        ...{ hydraulic, round: width },
      }),
    );
  return {
    ...{ id, bar, deep, width, overall, middle, drop: below, hydraulic },
    cut: () => prism('x', stadium(width, overall, [middle, -below], { sense: 'bore' }), -deep, deep),
    interfaces: fits,
    holes: 1,
    callouts: { farSide: between([0, middle, 0], [0, middle, -drop.host - bar / 2]) },
  };
}
