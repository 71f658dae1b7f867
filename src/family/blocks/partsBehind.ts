import { block } from '../../solid/primitives.ts';
import type { Feature } from '../feature.ts';
import { openingReach, type PanelRow, rowSpan } from './panelOpening.ts';

/** What lies behind a panel with openings, mm from the face the cover rests on. */
export interface PartsBehind {
  readonly row: PanelRow;
  readonly roomBehind: number;
  /** Nearest part beside the opening: `above`, `below`, `left`, `right` or `nothing`; how far from its edge, how far behind the face. */
  readonly near: string;
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
  const [beyond, past] = [nearGap + DRAWN, near === 'left' || near === 'below' ? -1 : 1];
  const sideways = near === 'left' || near === 'right';
  const edge = sideways ? past * half : past === 1 ? high : low;
  const span = [edge + past * nearGap, edge + past * beyond].sort((a, b) => a - b) as [number, number];
  const [x, y] = sideways ? [span, [low, high] as const] : [[-half, half] as const, span];
  const far = Math.max(roomBehind, nearDepth + 2);
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
              shape: block([x[0], y[0], -far], [x[1], y[1], -nearDepth]),
            },
          ]),
    ],
  };
}
