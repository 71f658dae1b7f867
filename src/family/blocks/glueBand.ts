import { adhesiveArea, STICK_ON_CAUTION } from '../../strength/adhesiveArea.ts';
import type { Feature } from '../feature.ts';

/** Tug at a cover that tape or glue under its rim should outlast, N. Common practice, no source. */
const TUG = 5;

/** A cover held by tape or glue on the band of its back that lies on the panel, `band` mm^2.
 *  @example glueBand(400, [0, 0, 0]).findings?.(made)[0]?.value // => 400 */
export function glueBand(band: number, at: readonly [number, number, number]): Feature {
  const needed = adhesiveArea({ lasting: 0, momentary: TUG });
  return {
    cautions: [STICK_ON_CAUTION[0]!.toUpperCase() + STICK_ON_CAUTION.slice(1)],
    steps: [
      {
        kind: 'place',
        sentence:
          'Degrease the panel around the opening and the back of the plate; lay tape or a thin line of silicone on the band of the plate',
      },
      {
        kind: 'place',
        sentence: 'Set the plug into the opening, press for half a minute all round, and leave it a day',
      },
    ],
    findings: () => [
      {
        ...{
          id: 'glue',
          title: 'band to glue on',
          value: band,
          limit: needed,
          side: 'above',
          unit: 'mm2',
          missed: 'caution',
        },
        because: `${band.toFixed(0)} mm2 of the plate lie on the panel; tape outlasts a tug of ${TUG} N on ${needed.toFixed(0)} mm2 at the lower end of what it bears`,
        source: 'tape: common practice, no source',
        ...{ remedy: 'a larger overlap, or a solvent-free glue that suits both plastics', at },
      },
    ],
  };
}
