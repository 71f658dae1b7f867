import { power } from '../../arithmetic/power.ts';
import { dimensioning, escapeText, text, textWidth } from '../drawing/index.ts';

/** A size as a drawing writes it (ISO 129-1:2018, clauses 5 and 6): sign of the diameter before the figure, deviations one above the other
 *  in the same unit after it, upper one on top; both alike once, after a plus-minus sign. */
export interface SizeText {
  readonly figure: string;
  /** Empty unless deviations differ. */
  readonly upper: string;
  readonly lower: string;
}

/** Heights of letters, mm (ISO 3098-1 series); deviations one step smaller. */
export const letters = { figure: 3.5, deviation: dimensioning.figure } as const;
/** Between the two deviations, and between figure and deviations, mm. */
const APART = 1;

/** What the print must measure. Limits are rounded inwards to 0.01 mm, so that whatever the drawing allows fits; to 0.001 where
 *  less than that is left.
 *  @example sizeText({ nominal: 3.941, least: 3.866, most: 4.016 }) // => figure '3.94±0.07' */
export function sizeText(
  {
    nominal,
    least,
    most,
  }: { readonly nominal: number; readonly least: number | null; readonly most: number | null },
  before = '',
): SizeText {
  const places = least !== null && most !== null && most - least < 0.021 ? 3 : 2;
  const steps = power(10, places);
  const figure = Math.round(nominal * steps);
  const top = most === null ? null : Math.floor(most * steps + 1e-6);
  const bottom = least === null ? null : Math.ceil(least * steps - 1e-6);
  const written = (n: number): string => (n / steps).toFixed(places);
  const only = (limit: number, word: string): SizeText => ({
    figure: `${before}${written(limit)} ${word}`,
    upper: '',
    lower: '',
  });
  if (top === null && bottom === null) return { figure: `${before}${written(figure)}`, upper: '', lower: '' };
  // ISO 129-1:2018, single limits.
  if (top === null) return only(bottom!, 'min.');
  if (bottom === null) return only(top, 'max.');
  const [up, down] = [top - figure, bottom - figure];
  if (up === -down && up > 0)
    return { figure: `${before}${written(figure)} ±${written(up)}`, upper: '', lower: '' };
  const deviation = (n: number): string => (n === 0 ? '0' : `${n > 0 ? '+' : '−'}${written(Math.abs(n))}`);
  return { figure: `${before}${written(figure)}`, upper: deviation(up), lower: deviation(down) };
}

/** A size that is only told, in brackets (ISO 129-1: auxiliary dimension), to 0.1 mm. */
export const toldText = (size: number, before = ''): SizeText => ({
  figure: `(${before}${size.toFixed(1)})`,
  upper: '',
  lower: '',
});

/** Width and height it takes, mm. */
export function extentOfText({ figure, upper, lower }: SizeText): [number, number] {
  const alone = textWidth(figure, letters.figure);
  if (upper === '') return [alone, letters.figure];
  const deviations = Math.max(textWidth(upper, letters.deviation), textWidth(lower, letters.deviation));
  return [alone + APART + deviations, 2 * letters.deviation + APART];
}

/** The text as SVG, its middle at the origin, upright; the figure on the line of the lower deviation. */
export function sizeTextSvg(of: SizeText): string[] {
  const { figure, upper, lower } = of;
  const [width, height] = extentOfText(of);
  if (upper === '') return [text([0, 0], figure, { height: letters.figure, mark: 'words' })];
  const left = -width / 2;
  const after = left + textWidth(figure, letters.figure) + APART;
  const small = letters.deviation / 2;
  return [
    text([left, (letters.figure - height) / 2], figure, {
      height: letters.figure,
      mark: 'words',
      anchor: 'start',
    }),
    text([after, height / 2 - small], upper, { height: letters.deviation, mark: 'words', anchor: 'start' }),
    text([after, small - height / 2], lower, { height: letters.deviation, mark: 'words', anchor: 'start' }),
  ];
}

/** What an accessible reader says of it. */
export const spoken = ({ figure, upper, lower }: SizeText, name: string): string =>
  `<title>${escapeText(`${name}: ${figure}${upper === '' ? '' : ` ${upper} / ${lower}`}`)}</title>`;
