import type { Parameter } from '../../../src/printer/types.ts';

/** What a parameter does to a print, drawn much too large: outlines as drawn and as printed, as path data in a field of 64 by
 *  36, y down; `bed` is the line of the bed, for what is seen from the front. */
export interface ParameterPicture {
  readonly drawn: string;
  readonly printed: string;
  readonly bed?: string;
}

const box = (left: number, top: number, right: number, bottom: number): string =>
  `M${left} ${top}H${right}V${bottom}H${left}Z`;
const circle = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;

const BED = 'M4 32.5H60';

/** The picture of a parameter. `way`: 1 for what its words say, -1 for the contrary, 0 where it is not known which; the
 *  printed outline is then that of the drawing.
 *  @example parameterPicture('outerGrowth', 0).printed === parameterPicture('outerGrowth', 0).drawn // => true */
export function parameterPicture(parameter: Parameter, way: -1 | 0 | 1): ParameterPicture {
  const by = 3 * way;
  switch (parameter) {
    case 'scale.x':
      return { drawn: box(8, 9, 56, 27), printed: box(8 + by, 9, 56 - by, 27) };
    case 'scale.y':
      return { drawn: box(22, 4, 42, 32), printed: box(22, 4 + by, 42, 32 - by) };
    case 'scale.z':
      return { drawn: box(22, 8, 42, 32.5), printed: box(22, 8 + 1.4 * by, 42, 32.5), bed: BED };
    case 'outerGrowth':
      return { drawn: box(18, 9, 46, 27), printed: box(18 - by, 9 - by, 46 + by, 27 + by) };
    case 'boreShrink':
      return {
        drawn: box(10, 4, 54, 32) + circle(32, 18, 9.5),
        printed: box(10, 4, 54, 32) + circle(32, 18, 9.5 - by),
      };
    case 'boreCurvature':
      return {
        drawn: box(6, 4, 58, 32) + circle(21, 18, 9.5) + circle(45, 18, 5),
        printed: box(6, 4, 58, 32) + circle(21, 18, 9.5 - by / 4) + circle(45, 18, 5 - by * 0.8),
      };
    case 'firstLayerSpread':
      return {
        drawn: box(20, 8, 44, 32.5),
        printed: `M20 8H44V27H${44 + 1.6 * by}V32.5H${20 - 1.6 * by}V27H20Z`,
        bed: BED,
      };
    case 'firstLayerError':
      return {
        drawn: `${box(18, 8, 46, 32.5)}M18 26H46`,
        printed: `${box(18, 8 - by, 46, 32.5)}M18 ${26 - by}H46`,
        bed: BED,
      };
    case 'levelSag':
      return {
        drawn: 'M10 6H54V32.5H46V16H18V32.5H10Z',
        printed: `M10 6H54V32.5H46V16Q32 ${16 + 3.4 * by} 18 16V32.5H10Z`,
        bed: BED,
      };
    case 'skew':
      return {
        drawn: box(18, 5, 46, 31),
        printed: `M${18 + 2 * by} 5H${46 + 2 * by}L46 31H18Z`,
      };
  }
}
