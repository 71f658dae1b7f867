/** Rounds mm to whole micrometres, in which a layout states its numbers. */
export const toMicrometre = (value: number): number => Math.round(value * 1000) / 1000;
