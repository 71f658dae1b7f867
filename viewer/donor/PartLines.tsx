import type { LevelMap } from '../../src/donor/respace/levelMap.ts';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import type { Vec2 } from '../../src/solid/vector.ts';
import { type Lay, movedLines } from './layAlong.ts';

/** The part itself in lines, moved as somebody is at it. */
export function PartLines({
  sheet: { picture },
  map,
  lay,
  y,
}: {
  readonly sheet: RefitSheet;
  readonly map: LevelMap | undefined;
  readonly lay: Lay;
  readonly y: (across: number) => number;
}) {
  const at = ([level, across]: Readonly<Vec2>): string =>
    `${(lay.left + (level - lay.low) * lay.scale).toFixed(1)} ${y(across).toFixed(1)}`;
  const d = movedLines(picture.lines, map)
    .map(([p, q]) => `M${at(p)}L${at(q)}`)
    .join('');
  return <path class="part" d={d} />;
}
