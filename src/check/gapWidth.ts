import { narrowestGap } from '../solid/thickness.ts';
import { formatLength } from '../units/index.ts';
import type { Check } from './context.ts';
import { narrowestLayer } from './narrowestLayer.ts';

/** Walls this close run into each other, mm, whatever the nozzle. Common practice, no source. */
const FUSES = 0.2;

/** Gap width: the narrowest slit or hole of any layer, mm. `fails` below 0.2 mm, where the walls run together;
 *  `caution` below one line width, where they may. The limit is 0.2 mm. */
export const gapWidth: Check = ({ layers, printer, known }) => {
  const narrowest = known.of('narrowest gap', layers, () => narrowestLayer(layers, narrowestGap));
  const line = printer.lineWidth;
  const source = 'common practice, no source';
  if (narrowest === null) {
    return [
      {
        ...{ id: 'gap', title: 'narrowest gap', verdict: 'holds', value: null, limit: FUSES, unit: 'mm' },
        ...{ margin: null, because: 'no two walls face each other', source, at: null, remedy: '' },
      },
    ];
  }
  const { width, at } = narrowest;
  const verdict = width < FUSES ? 'fails' : width < line ? 'caution' : 'holds';
  return [
    {
      ...{ id: 'gap', title: 'narrowest gap', verdict, value: width, limit: FUSES, unit: 'mm' },
      ...{ margin: width - FUSES, at, source },
      because: `${formatLength(width)} wide ${formatLength(at[2])} above the bed; walls run together below ${formatLength(FUSES)} and may below a line of ${formatLength(line)}`,
      remedy:
        verdict === 'holds' ? '' : `widen the gap to ${formatLength(line)} or more, or close it altogether`,
    },
  ];
};
