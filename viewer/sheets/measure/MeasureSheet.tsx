import { useBench } from '../../bench/bench.ts';

/** Readings to take and those taken. */
export function MeasureSheet() {
  const bench = useBench();
  const job = bench.job.value;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">reading</th>
          <th scope="col">as read</th>
        </tr>
      </thead>
      <tbody>
        {Object.entries(job.readings ?? {}).map(([id, texts]) => (
          <tr key={id}>
            <th scope="row">{id}</th>
            <td>
              <input
                aria-label={id}
                value={texts.join('  ')}
                onInput={({ currentTarget: { value } }) =>
                  bench.change(
                    id,
                    (now) => ({
                      ...now,
                      readings: { ...now.readings, [id]: value.split(/\s{2,}|;/).filter((t) => t !== '') },
                    }),
                    true,
                  )
                }
              />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
