/** A number from the world: what to reckon with, how far it scatters, and where it comes from. */
export interface Sourced {
  readonly value: number;
  readonly lo: number;
  readonly hi: number;
  readonly source: string;
}

/** `value` amid `lo` to `hi`. */
export const sourced = (value: number, lo: number, hi: number, source: string): Sourced => ({
  value,
  lo,
  hi,
  source,
});

const GUIDE = 'Bayer MaterialScience, Snap-Fit Joints for Plastics, table 3, from memory';

/** Friction of steel on plastic, dry, by polymer. The higher end is the cautious one for a push-in force. */
export const frictionOnSteel = {
  ABS: sourced(0.58, 0.5, 0.65, GUIDE),
  ASA: sourced(0.58, 0.5, 0.65, 'taken as ABS, its near relative; common practice, no source'),
  PC: sourced(0.5, 0.45, 0.55, GUIDE),
  POM: sourced(0.28, 0.2, 0.35, GUIDE),
  PA12: sourced(0.35, 0.3, 0.4, `${GUIDE}; printed there for polyamide`),
  PP: sourced(0.28, 0.25, 0.3, GUIDE),
  PLA: sourced(0.4, 0.3, 0.5, 'common practice, no source'),
  PETG: sourced(0.35, 0.25, 0.5, 'common practice, no source'),
  TPU: sourced(0.7, 0.5, 1, 'common practice, no source'),
} as const satisfies Readonly<Record<string, Sourced>>;

/** Plastic on the same plastic: friction on steel times this (same guide, from memory). */
export const SAME_PLASTIC = 1.2;
