import type { FormPaper } from '../../../src/output/readingForm/index.ts';

/** CSS pixels in a millimetre: an inch has 96 of them (CSS Values and Units 4, 6.2). */
const PIXELS = 96 / 25.4;

/** A field must hold "14.300" in figures of 16 px; on touch it is 44 px high (WCAG 2.2, 2.5.5). Its number stands on its
 *  upper edge and its spread beneath it: `readings.css` keeps as much of its place for them. */
const FIELD = { width: 66, mouse: 30, touch: 44, above: 5, below: 8 } as const;

/** The narrowest sheet the drawing can be laid out on, and steps in which it grows, mm: a drawing for each pixel of a
 *  window pulled wider would be wasted work. */
const NARROWEST = 90;
const STEP = 5;

/** Sheet for a column `width` CSS pixels wide: as large as on the screen where that is wide enough, the fields as large as
 *  fingers and figures need.
 *  @example paperFor(756, false).width // => 200 */
export function paperFor(width: number, touch: boolean): FormPaper {
  const mm = Math.max(NARROWEST, STEP * Math.floor(width / PIXELS / STEP));
  const scale = mm / Math.max(1, width);
  const height = (touch ? FIELD.touch : FIELD.mouse) + FIELD.above + FIELD.below;
  return { width: mm, field: [FIELD.width * scale, height * scale] };
}
