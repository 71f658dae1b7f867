import type { Randomness } from './randomness.ts';

/** A pair of callipers as it really is, and the hand that holds it. */
export interface TrueCallipers {
  /** Error common to all it reads, mm. */
  readonly error: number;
  /** Width of the lands of its inside jaws, mm. */
  readonly landWidth: number;
}

/** Bounds of the error, mm; standard deviation of the hand, mm; lands as their owner measured them, mm, and how well. */
export const PERMISSIBLE_ERROR = 0.03;
export const HAND = 0.02;
export const LAND_WIDTH = 0.3;
const LAND_DOUBT = 0.02;
const STEP = 0.01;

export const drawCallipers = ({ uniform, normal }: Randomness): TrueCallipers => ({
  error: uniform(-PERMISSIBLE_ERROR, PERMISSIBLE_ERROR),
  landWidth: LAND_WIDTH + normal(LAND_DOUBT),
});

/** Readings of one thing, mm, to the step of the display. Flat lands in a round bore touch with their corners. */
export function take(
  times: number,
  size: number,
  round: boolean,
  { error, landWidth }: TrueCallipers,
  { normal }: Randomness,
): number[] {
  const apart = round ? Math.sqrt(size ** 2 - landWidth ** 2) : size;
  return Array.from({ length: times }, () => {
    const shown = Math.round((apart + error + normal(HAND)) / STEP) * STEP;
    return Number(shown.toFixed(2));
  });
}

/** What their owner writes into the job file about them. */
export const told = {
  name: 'bench pair',
  resolution: String(STEP),
  permissibleError: String(PERMISSIBLE_ERROR),
  landWidth: String(LAND_WIDTH),
  repeatability: String(HAND),
} as const;
