import type { Callipers } from '../../../src/measure/types.ts';
import { formatNumber } from '../../../src/units/index.ts';

/** Says with which callipers a file was read, where they are not those of the job: readings on the page are taken for the
 *  job's. Empty where they agree, or the file does not say.
 *  @example otherCallipers(undefined, defaultCallipers) // => '' */
export function otherCallipers(told: Callipers | undefined, own: Callipers): string {
  if (told === undefined) return '';
  const differs = (['zero', 'resolution', 'landWidth', 'permissibleError', 'scale', 'name'] as const).some(
    (key) => told[key] !== own[key],
  );
  if (!differs) return '';
  const zero = `closed they show ${formatNumber(told.zero)}, here ${formatNumber(own.zero)}`;
  return `The file was read with ${told.name} (${zero}; step ${told.resolution}, here ${own.resolution}). Readings here count as taken with the callipers of the job: set those on sheet Measure.`;
}
