import { unitOf } from '../../measure/index.ts';
import { decimal, escapeText } from '../drawing/index.ts';
import { calliperPictogram, jawName } from './calliperPictogram.ts';
import type { NumberedReading } from './numberedReadings.ts';

/** The readings in the order of measuring: number, name, jaws, tip, plausible range, and boxes to write in. */
export function readingsTable(
  readings: readonly NumberedReading[],
  read: Readonly<Record<string, readonly string[]>>,
): string {
  const rows = readings.map(
    ({ number, key, spec }) => `<tr id="reading-${escapeText(key)}">
<th scope="row"><span class="balloon-text">${number}</span></th>
<td class="what"><b>${escapeText(spec.name)}</b><span class="tip">${escapeText(spec.tip)}</span>${otherwise(spec)}</td>
<td class="jaws">${calliperPictogram(spec.jaw)}<span>${jawName[spec.jaw]}${spec.round ? ', round hole' : ''}</span></td>
<td class="range">${decimal(spec.from)} to ${decimal(spec.to)} ${unitOf(spec)}</td>
<td class="boxes">${boxes(Math.max(spec.times, read[key]?.length ?? 0), read[key] ?? [])}</td>
</tr>`,
  );
  return `<table class="readings">
<thead><tr><th scope="col">No.</th><th scope="col">Reading</th><th scope="col">Jaws</th><th scope="col">Plausible</th><th scope="col">Read, as it is shown</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>`;
}

const boxes = (count: number, read: readonly string[]): string =>
  Array.from({ length: count }, (_, k) => `<span class="box">${escapeText(read[k] ?? '')}</span>`).join('');

function otherwise(spec: NumberedReading['spec']): string {
  const { otherwise: taken, optional } = spec;
  const unit = unitOf(spec);
  if (taken)
    return `<span class="tip">May be left out: then ${decimal(taken.value)} ${unit} is taken, give or take ${decimal(2 * taken.u)} ${unit}.</span>`;
  return optional ? '<span class="tip">May be left out.</span>' : '';
}
