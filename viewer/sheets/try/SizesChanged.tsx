import { type NextSize, SHOWS } from '../../../src/job/trial/changedSince.ts';
import { sentence } from '../../../src/output/words/index.ts';
import { capital } from '../measure/capital.ts';
import { figure, type JobUnit } from '../measure/figures.ts';

/** Sizes before and after, each with the reason; those that stay are counted. */
export function SizesChanged({
  sizes,
  unit,
  print,
}: {
  readonly sizes: readonly NextSize[];
  readonly unit: JobUnit;
  /** "print 1" */
  readonly print: string;
}) {
  const changed = sizes.filter(({ before, after }) => Math.abs(after - before) >= SHOWS);
  const same = sizes.length - changed.length;
  const shown = (size: number) => figure(size, 'mm', unit);
  if (changed.length === 0) return <p>The next one is drawn as {print} was.</p>;
  return (
    <>
      <table class="changed-sizes">
        <thead>
          <tr>
            <th scope="col">drawn ({unit})</th>
            <th scope="col" class="number">
              {print}
            </th>
            <th scope="col" class="number">
              now
            </th>
            <th scope="col">why</th>
          </tr>
        </thead>
        <tbody>
          {changed.map(({ id, name, before, after, because }) => (
            <tr key={id}>
              <th scope="row">{capital(name)}</th>
              <td class="number">{shown(before)}</td>
              <td class="number">
                <b>{shown(after)}</b>
              </td>
              <td class="why">
                {because === undefined
                  ? 'Readings, choices or sizes of the job are others now.'
                  : sentence(because)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {same > 0 && <p class="tip">{same === 1 ? 'One size stays' : `${same} sizes stay`} as drawn.</p>}
    </>
  );
}
