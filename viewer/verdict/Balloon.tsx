import { useBench } from '../bench/bench.ts';

interface BalloonProps {
  /** Place of the finding in the result, from 1. */
  readonly number: number;
  /** What it is about, for those who do not see it. */
  readonly about: string;
}

/** The number of a finding, round as on an assembly drawing. Picked, the picture turns to its place, and the same number
 *  is picked everywhere. */
export function Balloon({ number, about }: BalloonProps) {
  const { balloon } = useBench();
  const picked = balloon.value === number;
  return (
    <button
      type="button"
      class="balloon"
      aria-pressed={picked}
      aria-label={`${number}: show ${about} in the picture`}
      onClick={() => {
        balloon.value = picked ? null : number;
      }}
    >
      {number}
    </button>
  );
}
