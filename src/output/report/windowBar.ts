import { decimal } from '../drawing/index.ts';
import { type BarredFit, windowBarShape } from './windowBarShape.ts';

/** Small picture of a clearance window; see `windowBarShape`. */
export function windowBar(fit: BarredFit): string {
  const { width, height, label, standing, hatches, frame, zero, whisker, at, sign, disc } =
    windowBarShape(fit);
  const path = (name: string, d: string): string => (d === '' ? '' : `<path class="${name}" d="${d}"/>`);
  const mark =
    sign === null
      ? `<circle class="sign" cx="${decimal(at.x)}" cy="${decimal(at.y)}" r="${decimal(disc)}"/>`
      : path(standing === 'fails' ? 'sign cross' : 'sign', sign);
  return `<svg class="window-bar" role="img" aria-label="${label}" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">${[
    ...hatches.map((d) => path('hatch', d)),
    path('frame-line', frame),
    path('zero', zero ?? ''),
    path('whisker', whisker),
    mark,
  ].join('')}</svg>`;
}
