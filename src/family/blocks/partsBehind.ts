import { block } from '../../solid/primitives.ts';
import type { Vec3 } from '../../solid/vector.ts';
import type { Feature } from '../feature.ts';
import { openingReach, type PanelRow, rowSpan } from './panelOpening.ts';

/** What lies behind a panel with openings, mm from the face the cover rests on. */
export interface PartsBehind {
  readonly row: PanelRow;
  readonly roomBehind: number;
  /** Nearest part beside the opening: on which side, how far from its edge, how far behind the face. */
  readonly near: 'nothing' | 'above' | 'below' | 'left' | 'right';
  readonly nearGap: number;
  readonly nearDepth: number;
}

/** Room to keep to what lies behind, mm. */
const OFF = 0.4;
/** How far such parts are drawn to reach, mm. */
const DRAWN = 8;

/** Solids for what lies behind the openings and beside them, so that arms are held against it as everything else is. */
export function partsBehind({ row, roomBehind, near, nearGap, nearDepth }: PartsBehind): Feature {
  const { low, high } = openingReach(row.opening);
  const half = rowSpan(row) / 2;
  const box: Readonly<Record<Exclude<PartsBehind['near'], 'nothing'>, readonly [Vec3, Vec3]>> = {
    above: [
      [-half, high + nearGap, 0],
      [half, high + nearGap + DRAWN, 0],
    ],
    below: [
      [-half, low - nearGap - DRAWN, 0],
      [half, low - nearGap, 0],
    ],
    left: [
      [-half - nearGap - DRAWN, low, 0],
      [-half - nearGap, high, 0],
    ],
    right: [
      [half + nearGap, low, 0],
      [half + nearGap + DRAWN, high, 0],
    ],
  };
  const far = Math.max(roomBehind, near === 'nothing' ? 0 : nearDepth + 2);
  return {
    hosts: () => [
      {
        ...{ id: 'behind', name: 'what lies behind', keepOff: OFF },
        shape: block([-half, low, -roomBehind - 2], [half, high, -roomBehind]),
      },
      ...(near === 'nothing'
        ? []
        : [
            {
              ...{ id: 'beside', name: 'part beside the opening', keepOff: OFF },
              shape: block(
                [box[near][0][0], box[near][0][1], -far],
                [box[near][1][0], box[near][1][1], -nearDepth],
              ),
            },
          ]),
    ],
  };
}
