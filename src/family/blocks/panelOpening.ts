import { circle, dShape, rectangle, roundedRectangle, type Sense, stadium } from '../../solid/profile.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import { type Rule, sane } from '../rule.ts';

/** What an opening in a panel looks like from outside: `D` is a round one with a flat at the top, `slotted` one with round ends
 *  left and right. */
export type OpeningForm = 'rectangular' | 'rounded' | 'round' | 'D' | 'slotted';

/** An opening in a panel, seen from outside, mm. Of a D the origin is the middle of its round, of all others the middle. */
export interface PanelOpening {
  readonly form: OpeningForm;
  /** Along x; of round and D the diameter. */
  readonly width: number;
  /** Along y; of a D from the flat to the far side. */
  readonly height: number;
  /** Radius of the corners of a rounded one; 0 otherwise. */
  readonly corner: number;
}

/** Openings side by side along x, all alike, whose middles are `pitch` apart; about the origin. */
export interface PanelRow {
  readonly opening: PanelOpening;
  readonly count: number;
  /** Ignored for one. */
  readonly pitch: number;
}

/** Readings of an opening, mm, by the names that `openingReadings` gives them; those not asked for are not looked at. */
export type OpeningSizes = Readonly<
  Record<'openingWidth' | 'openingHeight' | 'openingDiameter' | 'openingFlat' | 'cornerRadius', number>
>;

/** The opening that readings describe.
 *  @example panelOpening('D', { ...sizes, openingDiameter: 24, openingFlat: 22 }) // => { form: 'D', width: 24, height: 22, corner: 0 } */
export function panelOpening(form: OpeningForm, d: OpeningSizes): PanelOpening {
  const round = form === 'round' || form === 'D';
  return {
    form,
    width: round ? d.openingDiameter : d.openingWidth,
    height: form === 'round' ? d.openingDiameter : form === 'D' ? d.openingFlat : d.openingHeight,
    corner: form === 'rounded' ? d.cornerRadius : 0,
  };
}

/** Readings that say how wide and how high an opening is, by form: what a refusal names. */
export function openingFields(form: OpeningForm): { readonly width: string; readonly height: string } {
  if (form === 'round') return { width: 'openingDiameter', height: 'openingDiameter' };
  if (form === 'D') return { width: 'openingDiameter', height: 'openingFlat' };
  return { width: 'openingWidth', height: 'openingHeight' };
}

/** Outline of an opening, or of a plug in it, grown by `by` mm all round, counter-clockwise. */
export function openingOutline(
  { form, width, height, corner }: PanelOpening,
  at: Vec2,
  by: number,
  sense: Sense,
): Contour {
  const size: Vec2 = [width + 2 * by, height + 2 * by];
  switch (form) {
    case 'rectangular':
    case 'rounded': {
      const radius = Math.min(Math.max(0, corner + by), Math.min(...size) / 2);
      return corner > 0 ? roundedRectangle(size, radius, at, { sense }) : rectangle(size, at);
    }
    case 'round':
      return circle(size[0], at, { sense });
    case 'D':
      // What the rules refuse is still asked for its area.
      return dShape(size[0], Math.min(Math.max(size[1], 0.51 * size[0]), size[0]), at, { sense });
    case 'slotted':
      return stadium(Math.min(...size), size[0], at, { sense });
  }
}

/** Lowest and highest y of an opening, mm. */
export const openingReach = ({ form, width, height }: PanelOpening): { low: number; high: number } =>
  form === 'D' ? { low: -width / 2, high: height - width / 2 } : { low: -height / 2, high: height / 2 };

/** Middles of the openings along x, `pitch` apart; as measured, or as drawn when that is told. */
export const rowCentres = ({ count, pitch }: PanelRow, drawn = pitch): number[] =>
  Array.from({ length: count }, (_, k) => (count === 1 ? 0 : (k - (count - 1) / 2) * drawn));

/** From the left edge of the first opening to the right edge of the last, mm. */
export const rowSpan = ({ opening, count, pitch }: PanelRow): number =>
  opening.width + (count > 1 ? (count - 1) * pitch : 0);

/** Least web of panel between two openings, mm: less bends under the fingers. Common practice, no source. */
const WEB = 1;

/** What openings must be to be openings. */
export function openingRules({ opening, count, pitch }: PanelRow): Rule[] {
  const { form, width, height, corner } = opening;
  const mm = (value: number): string => `${value.toFixed(2)} mm`;
  return [
    sane(
      form !== 'rounded' || 2 * corner < Math.min(width, height),
      'cornerRadius',
      `must be below half the shorter side (radius ${mm(corner)}, opening ${mm(width)} x ${mm(height)})`,
    ),
    sane(
      form !== 'D' || (height > 0.6 * width && height < width),
      'openingFlat',
      `must lie between six tenths of the diameter and all of it (across the flat ${mm(height)}, diameter ${mm(width)})`,
    ),
    sane(
      form !== 'slotted' || width > height,
      'openingWidth',
      `must be above the height of a slotted opening (width ${mm(width)}, height ${mm(height)})`,
    ),
    sane(
      count === 1 || pitch >= width + WEB,
      'pitch',
      `leaves no panel between the openings (pitch ${mm(pitch)}, opening ${mm(width)} wide, at least ${mm(WEB)} between)`,
    ),
  ];
}
