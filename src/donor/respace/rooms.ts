import type { PlainSpan } from '../spans/plainSpans.ts';
import type { TakeUp } from './levelMap.ts';

/** Where a change can be taken up without a trace: one span, or what must change together so that a symmetric donor
 *  stays so. */
export interface Room {
  readonly spans: readonly PlainSpan[];
  /** Stretches that share a change evenly. */
  readonly stretches: readonly { readonly from: number; readonly to: number }[];
  /** All stretches together, and how much they can be shortened by. */
  readonly length: number;
  readonly capacity: number;
}

/** One room a span. */
export const roomsOf = (spans: readonly PlainSpan[]): readonly Room[] =>
  spans.map((span) => ({
    spans: [span],
    stretches: [{ from: span.from, to: span.to }],
    length: span.length,
    capacity: span.available,
  }));

/** One room for a span around the mirror plane, and one for each pair on both sides of it, as far as both reach. */
export function mirroredRooms(spans: readonly PlainSpan[], mirror: number, rest: number): readonly Room[] {
  return spans.flatMap((span): Room[] => {
    if (span.from < mirror && span.to > mirror) {
      const half = Math.min(mirror - span.from, span.to - mirror);
      return [
        {
          spans: [span],
          stretches: [{ from: mirror - half, to: mirror + half }],
          length: 2 * half,
          capacity: Math.max(0, 2 * half - rest),
        },
      ];
    }
    if (span.from >= mirror) return [];
    return spans.flatMap((other): Room[] => {
      if (other.from < mirror) return [];
      const from = Math.max(span.from, 2 * mirror - other.to);
      const to = Math.min(span.to, 2 * mirror - other.from);
      // Most of both, or they are not each other's mirror image.
      if (!(to - from > 0.9 * Math.max(span.length, other.length))) return [];
      return [
        {
          spans: [span, other],
          stretches: [
            { from, to },
            // Rounding must not let it reach a hair into what is rigid.
            { from: Math.max(other.from, 2 * mirror - to), to: Math.min(other.to, 2 * mirror - from) },
          ],
          length: 2 * (to - from),
          capacity: 2 * Math.max(0, to - from - rest),
        },
      ];
    });
  });
}

/** The change in the given rooms, each as much as its capacity allows of the whole; evenly by length when it grows. */
export function takeUpsIn(rooms: readonly Room[], by: number): readonly TakeUp[] {
  const share = (room: Room): number => (by < 0 ? room.capacity : room.length);
  const whole = rooms.reduce((sum, room) => sum + share(room), 0);
  return rooms
    .flatMap((room) =>
      room.stretches.map((stretch) => ({
        ...stretch,
        by: (by * share(room)) / whole / room.stretches.length,
      })),
    )
    .sort((a, b) => a.from - b.from);
}
