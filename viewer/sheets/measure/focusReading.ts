/** Element id of the field of a reading. */
export const fieldId = (reading: string): string => `reading-${reading}`;

/** Puts the cursor into the field of a reading. `text`, where it is given, stands there marked at once. */
export function focusReading(reading: string, text?: string): void {
  const field = document.getElementById(fieldId(reading));
  field?.focus();
  if (field instanceof HTMLInputElement && text !== undefined) {
    field.value = text;
    field.select();
  }
}
