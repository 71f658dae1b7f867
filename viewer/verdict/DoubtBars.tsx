import type { Share } from '../../src/fit/types.ts';
import { percent } from '../../src/output/words/index.ts';
import { useBench } from '../bench/bench.ts';
import { doubtRows } from './doubtRows.ts';
import { leadTo } from './leadTo.ts';
import { fieldOfDoubt } from './placeOf.ts';

interface DoubtBarsProps {
  readonly shares: readonly Share[];
  readonly caption: string;
  /** Bars at most; the rest is one more. */
  readonly most?: number;
}

/** What a doubt rests on, each cause a bar and a way to where it comes from. */
export function DoubtBars({ shares, caption, most = 5 }: DoubtBarsProps) {
  const rows = doubtRows(shares, most);
  if (rows.length === 0) return null;
  return (
    <table class="doubt-bars">
      <caption>{caption}</caption>
      <tbody>
        {rows.map(({ id, label, share, length }) => (
          <tr key={id}>
            <th scope="row">
              <Cause id={id} label={label} />
            </th>
            <td>
              <svg viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
                <rect width={100 * length} height="10" />
              </svg>
            </td>
            <td class="number">{percent(share)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Cause({ id, label }: { readonly id: string; readonly label: string }) {
  const bench = useBench();
  const field = fieldOfDoubt(id);
  if (field === null) return <>{label}</>;
  return (
    <button type="button" class="way" onClick={() => leadTo(bench, field)}>
      {label}
    </button>
  );
}
