import type { z } from 'zod';
import { defaultCallipers } from '../measure/index.ts';
import type { Callipers } from '../measure/types.ts';
import { parseLength } from '../units/index.ts';
import type { callipersSchema } from './callipersSchema.ts';
import type { Problem } from './problem.ts';
import { shown } from './zodProblems.ts';

/** Callipers as their owner describes them, with what is not told as in `defaultCallipers`. `unit` is meant where a text
 *  has none. What cannot be understood or cannot be is said, `callipers.resolution` and its like, and left out.
 *  @example callipersOf({ zero: '-0.01' }, 'mm', () => {}).zero // => -0.01 */
export function callipersOf(
  told: z.output<typeof callipersSchema>,
  unit: 'mm' | 'in',
  say: (problem: Problem) => void,
): Callipers {
  const length = (
    key: 'resolution' | 'zero' | 'landWidth' | 'permissibleError' | 'repeatability',
    from: number,
    to: number,
  ): number | undefined => {
    const text = told[key];
    if (text === undefined) return undefined;
    const parsed = parseLength(String(text), unit, { sign: 'any' });
    const field = `callipers.${key}`;
    if (!parsed.ok) {
      say({
        code: 'length_unclear',
        field,
        value: shown(text),
        allowed: parsed.allowed,
        reason: parsed.reason,
      });
      return undefined;
    }
    if (parsed.mm >= from && parsed.mm <= to) return parsed.mm;
    say({ code: 'length_range', field, value: shown(text), allowed: `${from} to ${to} mm` });
    return undefined;
  };
  const given = {
    name: told.name,
    scale: told.scale,
    resolution: length('resolution', 0.001, 1),
    zero: length('zero', -5, 5),
    landWidth: length('landWidth', 0, 3),
    permissibleError: length('permissibleError', 0, 1),
    repeatability: length('repeatability', 0.001, 1),
  };
  const defined = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  // A width the person has measured is no longer a guess: 0.02 mm is what callipers read of it.
  const land = given.landWidth === undefined ? {} : { landWidthUncertainty: 0.02 };
  return { ...defaultCallipers, ...land, ...defined };
}
