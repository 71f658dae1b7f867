/** Recommended scales, paper : thing, largest first (ISO 5455:1979, 4). */
export const scales = [50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100] as const;

/** Largest recommended scale at which `size` (mm, as it is) fits `room` (mm on paper), and at most `most`.
 *  Throws `RangeError` when it does not fit at 1:100.
 *  @example scaleFor([12, 8], [100, 60], 10) // => 5 */
export function scaleFor(
  size: readonly [number, number],
  room: readonly [number, number],
  most: number,
): number {
  const scale = scales.find((s) => s <= most && size[0] * s <= room[0] && size[1] * s <= room[1]);
  if (scale === undefined) {
    throw new RangeError(
      `scaleFor requires a size that fits at 1:100 (size ${size.join(' x ')} mm, room ${room.join(' x ')} mm)`,
    );
  }
  return scale;
}

/** A scale as a title block states it.
 *  @example scaleName(0.5) // => '1:2' */
export const scaleName = (scale: number): string =>
  scale >= 1 ? `${Math.round(scale)}:1` : `1:${Math.round(1 / scale)}`;
