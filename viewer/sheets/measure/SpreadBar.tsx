import type { Dimension } from '../../../src/measure/types.ts';
import { spread } from './spread.ts';

/** The readings as ticks, their mean, and how well it is known (95 %) as a bar. What it shows stands in words beside it. */
export function SpreadBar({
  sizes,
  dimension,
}: {
  readonly sizes: readonly number[];
  readonly dimension: Dimension;
}) {
  const { ticks, mean, doubt } = spread(sizes, dimension.value, dimension.U);
  const odd = new Set(
    dimension.remarks.flatMap(({ kind, index }) =>
      index === undefined || kind === 'nominal' ? [] : [index],
    ),
  );
  const at = (position: number) => `${(100 * position).toFixed(2)}%`;
  return (
    <svg class="spread" aria-hidden="true">
      <rect class="doubt" x={at(doubt[0])} width={at(doubt[1] - doubt[0])} y="35%" height="30%" />
      {ticks.map((position, k) => (
        <line
          key={k}
          class={odd.has(k) ? 'tick odd' : 'tick'}
          x1={at(position)}
          x2={at(position)}
          y1={odd.has(k) ? '0%' : '12%'}
          y2={odd.has(k) ? '100%' : '88%'}
        />
      ))}
      <circle class="mean" cx={at(mean)} cy="50%" r="2" />
    </svg>
  );
}
