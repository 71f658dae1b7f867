/** Element id of the field of a reading. */
export const fieldId = (reading: string): string => `reading-${reading}`;

/** Puts the cursor into the field of a reading. */
export function focusReading(reading: string): void {
  document.getElementById(fieldId(reading))?.focus();
}

/** Marks the text of the field that has the cursor, so that the next number replaces it. */
export function selectField(): void {
  if (document.activeElement instanceof HTMLInputElement) document.activeElement.select();
}
