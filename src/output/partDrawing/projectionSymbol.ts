import type { Vec2 } from '../../solid/vector.ts';
import { disc, lineType, lineWidth, strokes } from '../drawing/index.ts';
import type { Projection } from './partDrawingInput.ts';

/** Small diameter of the cone, mm; the large one and its length are twice that. */
const SMALL = 3.5;
/** Middles of cone and circles from the middle of the symbol, mm. */
const APART = 6.2;

/** The symbol of the projection (ISO 5456-2:1996, clauses 5.2 and 5.3; proportions from memory): a cone cut off, narrow end to the left, and
 *  its view from the left, which stands to its right in first angle and to its left in third. */
export function projectionSymbol(projection: Projection, [x, y]: Readonly<Vec2>): string[] {
  const sense = projection === 'first' ? 1 : -1;
  const [cone, circles] = [x - sense * APART, x + sense * APART];
  const [long, past] = [SMALL, 1.2];
  const outline: Vec2[] = [
    [cone - long, y - SMALL / 2],
    [cone + long, y - SMALL],
    [cone + long, y + SMALL],
    [cone - long, y + SMALL / 2],
    [cone - long, y - SMALL / 2],
  ];
  const level = (middle: number): Vec2[] => [
    [middle - SMALL - past, y],
    [middle + SMALL + past, y],
  ];
  return [
    strokes([outline], { ...lineType.visibleEdge, width: 0.35 }, 'part'),
    disc([circles, y], SMALL, 'ring', 0.35),
    disc([circles, y], SMALL / 2, 'ring', 0.35),
    strokes(
      [
        level(cone),
        level(circles),
        [
          [circles, y - SMALL - past],
          [circles, y + SMALL + past],
        ],
      ],
      { width: lineWidth.narrow * 0.7, dashes: [] },
      'dimension',
    ),
  ];
}
