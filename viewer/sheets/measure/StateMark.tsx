import type { ReadingState } from './readingState.ts';

const shapes: Readonly<Partial<Record<ReadingState, string>>> = {
  refused: 'M3 3L13 13M13 3L3 13',
  doubtful: 'M8 2L15 14H1ZM8 6.5V10M8 11.6V12.4',
  few: 'M4 8H12',
  read: 'M2.5 8.5L6.5 12.5L13.5 3.5',
};

/** The state of a reading by its shape: cross, triangle, dash, tick; nothing for one that is not there. The words stand
 *  beside it. */
export function StateMark({ state }: { readonly state: ReadingState }) {
  const d = shapes[state];
  return d === undefined ? null : (
    <svg class={`state-mark ${state}`} viewBox="0 0 16 16" aria-hidden="true">
      <path d={d} />
    </svg>
  );
}
