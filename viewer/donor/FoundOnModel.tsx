import type { AxisName } from '../../src/job/axisName.ts';
import type { DonorObject } from '../../src/job/donorObject.ts';
import { formatNumber } from '../../src/units/index.ts';
import { useBench } from '../bench/bench.ts';
import { leadTo } from '../verdict/leadTo.ts';
import { axisWords } from './words.ts';

interface Row {
  readonly id: string;
  readonly size: string;
  readonly axis: AxisName;
  readonly at: readonly number[];
  readonly long: string;
  readonly isRead: boolean;
}

/** Bores, posts and pockets of the model; what the machine has there is to be measured. */
export function FoundOnModel({ model }: { readonly model: DonorObject }) {
  const bench = useBench();
  const { bores, posts, pockets } = model;
  const rows: readonly Row[] = [
    ...bores.map(({ id, inscribed, axis, at, depth, through }) => ({
      ...{ id, axis, at, isRead: true, size: `⌀\u00a0${formatNumber(inscribed)}` },
      long: `${formatNumber(depth)} deep${through ? ', through' : ''}`,
    })),
    ...posts.map(({ id, circumscribed, axis, at, length }) => ({
      ...{ id, axis, at, isRead: true, size: `⌀\u00a0${formatNumber(circumscribed)}` },
      long: `${formatNumber(length)} long`,
    })),
    ...pockets.map(({ id, kind, width, length, axis, at, depth, through }) => ({
      ...{ id, axis, at, isRead: false, size: `${kind} ${formatNumber(width)} × ${formatNumber(length)}` },
      long: `${formatNumber(depth)} deep${through ? ', through' : ''}`,
    })),
  ];
  const read = rows.find(({ isRead }) => isRead);
  return (
    <section aria-label="Found on the model">
      <h2>Found on it</h2>
      {rows.length === 0 ? (
        <p>No round bores or posts, and no pockets. What is measured of your machine is its lengths.</p>
      ) : (
        <div class="scroll">
          <table class="found">
            <thead>
              <tr>
                <th scope="col">mm</th>
                <th scope="col">size</th>
                <th scope="col">along</th>
                <th scope="col">centre</th>
                <th scope="col">how far</th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ id, size, axis, at, long }) => (
                <tr key={id}>
                  <th scope="row">{id}</th>
                  <td>{size}</td>
                  <td>{axisWords(axis)}</td>
                  <td>{at.map((x) => formatNumber(x)).join(' ')}</td>
                  <td>{long}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <p class="next">
        <button type="button" class="way" onClick={() => leadTo(bench, `readings.${read?.id ?? 'lengthX'}`)}>
          Measure what the machine has there
        </button>
        <span class="tip"> Leave out what is right as it is in the model.</span>
      </p>
    </section>
  );
}
