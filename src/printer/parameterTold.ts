import { formatNumber } from '../units/index.ts';
import type { Known, Parameter } from './types.ts';

/** How a parameter is told at the bench. */
interface Told {
  /** What the printer does: "bores, slots close in". */
  readonly what: string;
  /** Unit of the number that is shown. */
  readonly unit: string;
  readonly shown: (value: number) => number;
  /** From the parameter's own unit to the one shown. */
  readonly factor: number;
}

const same = (value: number): number => value;
const shrink = (scale: number): number => 100 * (1 - scale);

/** How each parameter of a printer is told at the bench: what it is, times what, in which unit. */
export const parameterTold: Readonly<Record<Parameter, Told>> = {
  'scale.x': { what: 'shrinks along x', unit: '%', shown: shrink, factor: 100 },
  'scale.y': { what: 'shrinks along y', unit: '%', shown: shrink, factor: 100 },
  'scale.z': { what: 'shrinks in height', unit: '%', shown: shrink, factor: 100 },
  outerGrowth: { what: 'outer faces stand out', unit: 'mm a side', shown: same, factor: 1 },
  boreShrink: { what: 'bores, slots close in', unit: 'mm a side', shown: same, factor: 1 },
  boreCurvature: { what: 'small bores besides', unit: 'mm2 / bore', shown: same, factor: 1 },
  firstLayerSpread: { what: 'first layer spreads', unit: 'mm a side', shown: same, factor: 1 },
  firstLayerError: { what: 'first layer thicker', unit: 'mm', shown: same, factor: 1 },
  levelSag: { what: 'level roofs sag', unit: 'mm', shown: same, factor: 1 },
  skew: { what: 'y leans towards x', unit: 'mm in 100', shown: (t) => 100 * t, factor: 100 },
};

/** Value and expanded uncertainty (k = 2) of a parameter as figures in its unit; digits as the doubt justifies.
 *  @example knownFigures('outerGrowth', { value: 0.05, u: 0.01 }) // => ['0.05', '0.02'] */
export function knownFigures(parameter: Parameter, { value, u }: Known): readonly [string, string] {
  const { shown, factor } = parameterTold[parameter];
  const U = 2 * u * factor;
  // Half of U: two digits of a doubt are more than a bench can use.
  return [formatNumber(shown(value), U), formatNumber(U, U)];
}
