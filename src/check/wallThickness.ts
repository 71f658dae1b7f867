import { thinnestWall } from '../solid/thickness.ts';
import { formatLength } from '../units/index.ts';
import type { Check } from './context.ts';
import { narrowestLayer } from './narrowestLayer.ts';

/** A wall of one strand prints but bends and splits; from two on it is a wall. Common practice, no source. */
const STRANDS = 2;

/** Wall thickness: the thinnest wall of any layer, mm. `fails` below one line width, which printers leave out or
 *  smear; `caution` below two. The limit is one line width. The first layer counts with what it spreads, because it
 *  may be drawn in by as much. */
export const wallThickness: Check = ({ layers, printer, known }) => {
  const spread = 2 * printer.firstLayerSpread.value;
  const thinnest = known.of('thinnest wall', { layers, spread }, () =>
    narrowestLayer(layers, thinnestWall, spread),
  );
  const line = printer.lineWidth;
  const source = 'common practice, no source';
  if (thinnest === null) {
    return [
      {
        ...{ id: 'wall', title: 'thinnest wall', verdict: 'fails', value: null, limit: line, unit: 'mm' },
        ...{ margin: null, because: 'no layer has any material', source, at: null },
        remedy: 'make the part at least one layer high',
      },
    ];
  }
  const { width, at } = thinnest;
  const verdict = width < line ? 'fails' : width < STRANDS * line ? 'caution' : 'holds';
  const wanted = verdict === 'fails' ? line : STRANDS * line;
  return [
    {
      ...{ id: 'wall', title: 'thinnest wall', verdict, value: width, limit: line, unit: 'mm' },
      ...{ margin: width - line, at, source },
      because: `${formatLength(width)} thick ${formatLength(at[2])} above the bed; ${verdict === 'fails' ? 'one line is' : 'two lines are'} ${formatLength(wanted)}`,
      remedy:
        verdict === 'holds'
          ? ''
          : `thicken the wall to ${formatLength(STRANDS * line)}, or lay the part so that the wall lies flat`,
    },
  ];
};
