import type { DonorObject } from '../../src/job/donorObject.ts';
import { type ScaledFeature, scalingInstead } from '../../src/job/scalingInstead.ts';
import { formatNumber } from '../../src/units/index.ts';
import { useBench } from '../bench/bench.ts';
import { Mark } from '../verdict/Mark.tsx';
import { alongWords } from './words.ts';

/** Features named; more would hide the point. */
const SHOWN = 6;

/** Why it was not scaled: what scaling to the same length would have done to every bore and post. */
export function ScaledInstead({ model }: { readonly model: DonorObject }) {
  const { made, stale } = useBench();
  const result = made.value?.result;
  if (!result || stale.value) return null;
  const { extents, bores, posts } = model;
  const scaling = scalingInstead(
    { low: [0, 0, 0], high: extents, features: { bores, posts } },
    result.changes ?? [],
    result.interfaces,
  );
  if (!scaling || scaling.features.length === 0) return null;
  const more = scaling.features.length - SHOWN;
  return (
    <section aria-label="What scaling would have done">
      <h2>Had it been scaled</h2>
      <p class="tip">
        All of it times {Number(scaling.factor.toPrecision(4))} is as long {alongWords(scaling.axis)}, and
        this is what would have gone along:
      </p>
      <table class="scaled">
        <thead>
          <tr>
            <th scope="col">mm</th>
            <th scope="col">model</th>
            <th scope="col">scaled</th>
            <th scope="col">gap then</th>
          </tr>
        </thead>
        <tbody>
          {scaling.features.slice(0, SHOWN).map((feature) => (
            <tr key={feature.id}>
              <th scope="row">{feature.id}</th>
              <td>{formatNumber(feature.now)}</td>
              <td>{formatNumber(feature.scaled)}</td>
              <td>
                <Gap feature={feature} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {more > 0 && <p class="tip">and {more} more.</p>}
    </section>
  );
}

function Gap({ feature: { clearance, window } }: { readonly feature: ScaledFeature }) {
  if (clearance === null || window === null) return <span class="tip">not measured</span>;
  const fits = clearance >= (window[0] ?? -Infinity) && clearance <= (window[1] ?? Infinity);
  return (
    <>
      <Mark verdict={fits ? 'holds' : 'fails'} said /> {formatNumber(clearance)}
      {!fits && <small> outside its window</small>}
    </>
  );
}
