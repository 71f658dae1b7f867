/** Chance below which the number is shown as a warning. A part in twenty; common practice, no source. */
export const GOOD_CHANCE = 0.95;
