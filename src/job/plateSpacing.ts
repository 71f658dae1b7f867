/** Distance from part to part on a plate and to the edge of the bed, mm. `normal` where nobody says otherwise: room for a
 *  skirt and for a blade between the parts; common practice, no source. */
export const SPACING = { least: 1, most: 50, normal: 5 } as const;

/** What is allowed, as the end of the sentence "allowed: ...". */
export const SPACING_ALLOWED = `${SPACING.least} to ${SPACING.most} mm`;

/** A spacing as typed, mm; undefined for a text that is none.
 *  @example spacingTyped('2,5 mm') // => 2.5 */
export function spacingTyped(text: string): number | undefined {
  const value = text.trim() === '' ? Number.NaN : Number(text.replace(',', '.').replace(/\s*mm\s*$/, ''));
  return value >= SPACING.least && value <= SPACING.most ? value : undefined;
}
