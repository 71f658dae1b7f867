/** Half-widths of the permissible error of callipers, micrometres, for outside measurement.
 *
 *  Source: DIN 862, error limits G, as in a public one-page extract. The extract joins cells over several
 *  lengths; the reading of the rows is ours. Rows 700 to 1000 of the coarse column step evenly between the
 *  printed 90 and 120 (from memory of DIN 862). Other pages give 20 up to 200 mm for digital callipers;
 *  the larger figure is kept. */
const ERROR_LIMITS: readonly {
  /** Measured length up to and including, mm. */
  readonly upTo: number;
  /** Vernier of 0.1 or 0.05 mm. */
  readonly coarse: number;
  /** Vernier or dial of 0.02 mm, digital of 0.01 mm. */
  readonly fine: number;
}[] = [
  { upTo: 50, coarse: 50, fine: 20 },
  { upTo: 100, coarse: 50, fine: 20 },
  { upTo: 200, coarse: 50, fine: 30 },
  { upTo: 300, coarse: 50, fine: 30 },
  { upTo: 400, coarse: 60, fine: 30 },
  { upTo: 500, coarse: 70, fine: 30 },
  { upTo: 600, coarse: 80, fine: 30 },
  { upTo: 700, coarse: 90, fine: 40 },
  { upTo: 800, coarse: 100, fine: 40 },
  { upTo: 900, coarse: 110, fine: 40 },
  { upTo: 1000, coarse: 120, fine: 40 },
];

/** Inside and depth measurement is allowed this much more, micrometres. DIN 862. */
const INSIDE_OR_DEPTH = 20;

/** Coarsest step that counts as fine, mm: the 0.02 vernier or dial. DIN 862. */
const FINE_STEP = 0.02;

/** Longest length the table knows, mm. */
export const LONGEST_CALLIPER_LENGTH = 1000;

/** Half-width of the permissible error of callipers, mm: the reading lies within plus or minus this of the
 *  true length. `length` in mm, above 0, at most 1000; between two rows the longer one holds. `resolution`,
 *  the smallest step in mm, decides the column: digital callipers that show no finer than a vernier of
 *  0.05 mm are taken for no better than one (our judgement; DIN 862 knows 0.01 digital only).
 *  DIN 862. Throws a RangeError outside the table.
 *  @example permissibleError({ resolution: 0.01, jaw: 'outside', length: 25 }) // => 0.02
 *  @example permissibleError({ resolution: 0.01, jaw: 'inside', length: 25 }) // => 0.04 */
export function permissibleError(given: {
  readonly resolution: number;
  readonly jaw: 'outside' | 'inside' | 'depth';
  readonly length: number;
}): number {
  const row = ERROR_LIMITS.find(({ upTo }) => given.length <= upTo);
  if (row === undefined || !(given.length > 0)) {
    throw new RangeError(
      `permissible error requires length above 0 and at most ${LONGEST_CALLIPER_LENGTH} mm (given ${given.length} mm)`,
    );
  }
  if (!(given.resolution > 0)) {
    throw new RangeError(`permissible error requires resolution above 0 mm (given ${given.resolution} mm)`);
  }
  // A tolerance below any step: 0.02 typed as 0.0200000001 by some conversion is still the fine column.
  const limit = given.resolution <= FINE_STEP * (1 + 1e-9) ? row.fine : row.coarse;
  return (limit + (given.jaw === 'outside' ? 0 : INSIDE_OR_DEPTH)) / 1000;
}
