/** A row of readings to be drawn as ticks along a bar: positions from 0 to 1. */
export interface Spread {
  readonly ticks: readonly number[];
  readonly mean: number;
  /** Ends of mean - U .. mean + U. */
  readonly doubt: readonly [number, number];
  /** What the whole bar spans, in the unit of the readings. */
  readonly span: number;
}

/** Lays readings, their mean and its expanded uncertainty `U` along a bar with the mean in the middle. The bar spans all
 *  of them with a little room; `U` above 0 or at least two readings that differ, otherwise a bar of length 1.
 *  @example spread([4.01, 4.03], 4.02, 0.02).doubt // => [0.0833..., 0.9166...] */
export function spread(readings: readonly number[], mean: number, U: number): Spread {
  const reach = Math.max(U, ...readings.map((reading) => Math.abs(reading - mean)));
  const span = reach > 0 ? 2.4 * reach : 1;
  const at = (value: number): number => 0.5 + (value - mean) / span;
  return { ticks: readings.map(at), mean: 0.5, doubt: [at(mean - U), at(mean + U)], span };
}
