import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { decimal, escapeText } from '../drawing/index.ts';
import { calliperPictogram, jawName } from '../sheet/calliperPictogram.ts';

/** What holds for every reading taken with a jaw. */
const manner: Readonly<Record<CouponFeature['reading']['jaw'], string>> = {
  inside:
    'Blades upright, not tilted. In a slot turn them to the smallest reading, in a bore rock them to the largest. In the smallest bores only the last millimetres of the tips go in: let them sink as far as they go of themselves.',
  outside:
    'Close them until they just touch; plastic gives way. Hold tall things by their walls, with the tips off the plate.',
  depth: 'The end of the beam lies flat on its face; the rod is let go until it touches, not pushed.',
  entered: '',
};

/** Every feature in the order of measuring, one table a jaw: number, name and tip, drawn size, boxes to write in. */
export function readingsTable(features: readonly CouponFeature[]): string {
  const jaws = [...new Set(features.map(({ reading }) => reading.jaw))];
  return jaws
    .map((jaw) => {
      const rows = features.filter(({ reading }) => reading.jaw === jaw).map(row);
      return `<tbody>
<tr class="jaw"><td colspan="4"><div>${calliperPictogram(jaw)}<p><b>${jawName[jaw]}</b> ${manner[jaw]}</p></div></td></tr>
${rows.join('\n')}
</tbody>`;
    })
    .join('\n');
}

const row = ({
  number,
  id,
  reading,
  nominal,
  times,
  tip,
}: CouponFeature): string => `<tr id="feature-${escapeText(id)}">
<th scope="row"><span class="balloon-text">${number}</span></th>
<td class="what"><b>${escapeText(reading.name)}</b> <code>${escapeText(id)}</code><span class="tip">${escapeText(tip)}</span></td>
<td class="drawn">${decimal(Math.round(nominal * 100) / 100)}</td>
<td class="boxes">${'<span class="box"></span>'.repeat(times)}</td>
</tr>`;
