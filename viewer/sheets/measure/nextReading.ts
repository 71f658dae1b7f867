/** As much of a reading as tells whether it is done. */
export interface Progress {
  readonly id: string;
  readonly taken: number;
  readonly times: number;
}

/** Where Enter goes on after the reading `from`: the next one, in the order of measuring, that lacks numbers; round to the
 *  first such when none follows; null when every reading is there.
 *  @example nextReading([{ id: 'bar', taken: 3, times: 3 }, { id: 'wall', taken: 0, times: 3 }], 'bar') // => 'wall' */
export function nextReading(readings: readonly Progress[], from: string): string | null {
  const at = readings.findIndex(({ id }) => id === from);
  const order = [...readings.slice(at + 1), ...readings.slice(0, Math.max(0, at))];
  return order.find(({ taken, times }) => taken < times)?.id ?? null;
}

/** Whether Enter after a number goes on: the set has become complete in this turn. A set that was complete before is being
 *  added to on purpose, so the field stays; a value entered once is done with every Enter. */
export const turnIsOver = (
  taken: number,
  times: number,
  { wasComplete, single }: { readonly wasComplete: boolean; readonly single: boolean },
): boolean => single || (!wasComplete && taken >= times);
