import type { PlateLoad } from './plate.ts';

/** Force of a test finger, N: probe B of IEC 61032 is applied with 10 N +- 10 % (IEC 60529, first characteristic numeral 2). */
export const FINGER_FORCE = 10;

/** Width of a finger tip's print, mm, for spreading that force; the probe itself is 12 mm thick with a rounded tip. Common practice, no source. */
export const FINGER_PAD = 10;

/** A finger that pushes in the middle of a cover whose shortest span is `span` mm, above 0: a cover narrower than the pad carries it over its width.
 *  @example fingerPush(40) // => { kind: 'pad', force: 10, spread: 10 } */
export const fingerPush = (span: number): PlateLoad => ({
  kind: 'pad',
  force: FINGER_FORCE,
  spread: Math.min(FINGER_PAD, span),
});
