import type { JobFile } from '../../../src/job/schema.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { knownOf } from '../../../src/printer/parameters.ts';
import { parameterTold } from '../../../src/printer/parameterTold.ts';
import { PARAMETERS, type Parameter, type PrinterProfile } from '../../../src/printer/types.ts';

/** The printer that a job carries: its profile; null for one that nobody has measured or that lies in a file elsewhere. */
export const profileOf = ({ printer }: Pick<JobFile, 'printer'>): PrinterProfile | null =>
  typeof printer === 'object' ? printer : null;

/** How well something is known of a printer. */
export interface ParameterLine {
  readonly parameter: Parameter;
  readonly what: string;
  readonly value: number;
  readonly u: number;
  /** Doubt left, as a share of that of a printer nobody has measured, 0..1. */
  readonly left: number;
  /** Which way the print differs from the drawing: -1, 0 or 1; 0 where the doubt is larger than the value. */
  readonly way: -1 | 0 | 1;
}

/** Each number of a profile, how it stands against a printer nobody has measured. */
export const parameterLines = (profile: PrinterProfile): readonly ParameterLine[] =>
  PARAMETERS.map((parameter) => {
    const { value, u } = knownOf(profile, parameter);
    const usual = knownOf(defaultPrinter, parameter).u;
    const shown = parameterTold[parameter].shown(value);
    const isSure = Math.abs(shown) > u * parameterTold[parameter].factor;
    return {
      ...{ parameter, what: parameterTold[parameter].what, value, u },
      left: usual > 0 ? Math.min(1, u / usual) : 0,
      way: isSure ? (Math.sign(shown) as -1 | 1) : 0,
    };
  });

/** How well a number is known, in a word. Thirds of the doubt there is of any printer; our judgement, no source. */
export function knownWord(left: number): string {
  if (left > 0.95) return 'as of any printer';
  if (left > 0.67) return 'hardly better';
  return left > 0.33 ? 'better' : 'well';
}
